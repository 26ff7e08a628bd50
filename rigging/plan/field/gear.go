package field

// Columns are the fields of a piece of gear that a table of a gear list has, in
// its order. The place where a piece sits and the reason it is cleared for belong
// to one plan; the worksheet is kept by the gear list's own file.
var Columns = []Field{
	PieceID, PieceKind, PieceWLL, PieceTonnes, PieceBreaking, DesignFactor, HitchFactor, Reductions, PieceSize, Terminations,
	LastInspection, NextInspection, Retired, PieceNotes,
}

// Limits are the fields of a piece of gear that may hold what it carries.
var Limits = []Field{PieceWLL, PieceTonnes, PieceBreaking}

// Choked is the hitch factor of a sling on the stem that gives none.
var Choked = figure(choked.Value, "choked", choked.Source)

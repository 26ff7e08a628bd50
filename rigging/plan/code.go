package plan

// A Code says what kind of thing is wrong; it does not change with language.
type Code string

// The codes of problems.
const (
	CodeUnreadable   Code = "unreadable"    // not a plan at all
	CodeVersion      Code = "version"       // of a format not known here
	CodeTooLong      Code = "too_long"      // more bytes, characters or entries than are read
	CodeUnknownField Code = "unknown_field" // a field nobody knows
	CodeMissing      Code = "missing"       // a value that has no default
	CodeType         Code = "type"          // a value of the wrong kind
	CodeRange        Code = "range"         // a number or day outside what is accepted, alone or beside another field
	CodeChoice       Code = "choice"        // none of the words there are
	CodeTwice        Code = "twice"         // a name, limit or place given twice
	CodeEither       Code = "either"        // two fields of which only one may be given
	CodeNoSuch       Code = "no_such"       // the name of something that is not there
	CodePlace        Code = "place"         // a place that something cannot be in
	CodeGear         Code = "gear"          // a link of the chain that no piece stands for
	CodeInspection   Code = "inspection"    // a piece that may not be used
	CodeAnchor       Code = "anchor"        // an anchor that holds nothing or cannot be computed
	CodeTackle       Code = "tackle"        // a tackle that cannot be computed
	CodeLine         Code = "line"          // a line that cannot be computed
	CodeCannotPull   Code = "cannot_pull"   // the tree cannot be pulled over by these lines
	CodePlanned      Code = "planned"       // a planned tension below what is needed
)

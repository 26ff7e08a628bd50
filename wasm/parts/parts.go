package parts

// A Fact is one main number with its name.
type Fact struct {
	ID    string `json:"id"`
	Label string `json:"label"`
	Value string `json:"value"` // with unit
	Note  string `json:"note,omitempty"`
	// Working is the path of the step of the working that gives it.
	Working string `json:"working,omitempty"`
}

// A Section is a part of the form, possibly one of a list (a point, a line,
// a piece of gear) and possibly holding further sections.
type Section struct {
	ID       string    `json:"id"` // the JSON path it edits: "tree", "points[0]"
	Title    string    `json:"title"`
	Help     string    `json:"help,omitempty"`
	Fields   []Field   `json:"fields,omitempty"`
	Sections []Section `json:"sections,omitempty"`
	Actions  []Action  `json:"actions,omitempty"`
	Notes    []Note    `json:"notes,omitempty"`   // problems and cautions beside what they concern
	Summary  string    `json:"summary,omitempty"` // one line for the folded section
	State    string    `json:"state,omitempty"`   // verdict key of the point or piece, if it has one
	// Problems counts the problems in this section and all below it, also
	// those that stand at their field: a folded section shows it.
	Problems int `json:"problems,omitempty"`
}

// A Field is one typed value of the plan.
type Field struct {
	Path    string   `json:"path"`
	Label   string   `json:"label"`
	Unit    string   `json:"unit,omitempty"`
	Kind    string   `json:"kind"`              // number, text, long (several lines), choice, flag
	Text    string   `json:"text"`              // as typed or, for a good number, in the user's unit; choice: the value; flag: "true" or ""
	Default string   `json:"default,omitempty"` // what is taken while the field is empty, with "" if nothing is
	Founded string   `json:"founded,omitempty"` // how well that is founded, in words; "" where nothing is to be said
	Help    string   `json:"help,omitempty"`
	Options []Option `json:"options,omitempty"`
	Suggest []Option `json:"suggest,omitempty"` // published values offered by name for a number; choosing one types its value
	// OptionsOf and SuggestOf stand for Options and Suggest where several
	// fields have the same: the number in View.Lists, counted from 1. HelpOf
	// stands for Help, by the number in View.Helps.
	OptionsOf int    `json:"options_of,omitempty"`
	SuggestOf int    `json:"suggest_of,omitempty"`
	HelpOf    int    `json:"help_of,omitempty"`
	Measure   bool   `json:"measure,omitempty"` // there are ways to measure it: the call measure
	Problem   string `json:"problem,omitempty"`
}

// An Option is one choice.
type Option struct {
	Value string `json:"value"`
	Label string `json:"label"`
}

// An Action adds or removes a part of the plan.
type Action struct {
	Do    string `json:"do"`   // add, remove, up, down …: passed back unchanged
	Path  string `json:"path"` // passed back unchanged
	Label string `json:"label"`
}

// A Note is a problem or a caution in plain words.
type Note struct {
	Code    string `json:"code,omitempty"`
	Path    string `json:"path,omitempty"` // field or section it concerns
	Message string `json:"message"`
	State   string `json:"state,omitempty"` // of a reason: the verdict it keeps the plan at
	Source  string `json:"source,omitempty"`
}

// A Step is the working of one number, ready to show.
type Step struct {
	Path    string   `json:"path"`
	Name    string   `json:"name"`
	Formula string   `json:"formula"`
	Values  []string `json:"values"`
	From    []string `json:"from,omitempty"` // for each value the path of the step it comes from, "" where it was given
	Result  string   `json:"result"`
	Source  string   `json:"source"`
}

// An Assumed is one default taken. Working is the path of its step, "" where
// it is no number.
type Assumed struct {
	Path    string `json:"path"`
	Label   string `json:"label"`
	Value   string `json:"value"`
	Why     string `json:"why"`
	Source  string `json:"source,omitempty"`
	Working string `json:"working,omitempty"`
}

// A Change is one step of editing the plan object, applied by the page in
// order: set puts a value (making objects on the way), delete removes a key
// or an array element, insert appends to an array (making it if need be).
type Change struct {
	Op    string `json:"op"`
	At    []any  `json:"at"` // keys and indexes: ["points", 0, "distance_m"]
	Value any    `json:"value,omitempty"`
}

// Changes answers edit, act and drag. Focus names the field or section to
// show next. Message, if any, says why nothing was changed.
type Changes struct {
	Changes []Change `json:"changes"`
	Focus   string   `json:"focus,omitempty"`
	Message string   `json:"message,omitempty"`
}

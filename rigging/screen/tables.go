package screen

// suggestions are the published values offered by name for a field, none
// for most. They are only offered: nothing takes one but the user.
func suggestions(path string) []Option { return nil }

// speciesOptions are the species to choose from.
func speciesOptions() []Option { return []Option{{"", "not chosen"}} }

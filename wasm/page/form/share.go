package form

import (
	"slices"

	"pullline/wasm/parts"
)

// Share moves the choices that several fields of a form have into lists, and
// their helps into helps: each is then sent once. What only one field has stays
// there.
func Share(form []parts.Section) (lists [][]parts.Option, helps []string) {
	counted := sharedHelps{fields: map[string]int{}, numbers: map[string]int{}}
	eachField(form, func(f *parts.Field) { counted.fields[f.Help]++ })
	eachField(form, counted.move)
	var shared listSharer
	shared.each(form, shared.count)
	shared.each(form, shared.move)
	return shared.lists, counted.texts
}

// A listSharer finds lists that are alike.
type listSharer struct {
	seen  []seenList
	lists [][]parts.Option
}

// A seenList is a list of the form, how many fields have it and its number
// among the shared ones, 0 while it has none.
type seenList struct {
	list   []parts.Option
	fields int
	number int
}

// each calls do with every list of choices below some sections and the
// number that may take its place.
func (s *listSharer) each(sections []parts.Section, do func(list *[]parts.Option, number *int)) {
	eachField(sections, func(f *parts.Field) {
		do(&f.Options, &f.OptionsOf)
		do(&f.Suggest, &f.SuggestOf)
	})
}

func eachField(sections []parts.Section, do func(*parts.Field)) {
	for i := range sections {
		for k := range sections[i].Fields {
			do(&sections[i].Fields[k])
		}
		eachField(sections[i].Sections, do)
	}
}

// sharedHelps are the helps, how many fields have each, and the number of
// each shared one.
type sharedHelps struct {
	fields, numbers map[string]int
	texts           []string
}

func (s *sharedHelps) move(f *parts.Field) {
	if f.Help == "" || s.fields[f.Help] < 2 {
		return
	}
	n, ok := s.numbers[f.Help]
	if !ok {
		s.texts = append(s.texts, f.Help)
		n = len(s.texts)
		s.numbers[f.Help] = n
	}
	f.Help, f.HelpOf = "", n
}

func (s *listSharer) find(list []parts.Option) *seenList {
	for i := range s.seen {
		if slices.Equal(s.seen[i].list, list) {
			return &s.seen[i]
		}
	}
	s.seen = append(s.seen, seenList{list: list})
	return &s.seen[len(s.seen)-1]
}

func (s *listSharer) count(list *[]parts.Option, _ *int) {
	if len(*list) > 0 {
		s.find(*list).fields++
	}
}

func (s *listSharer) move(list *[]parts.Option, number *int) {
	if len(*list) == 0 {
		return
	}
	found := s.find(*list)
	if found.fields < 2 {
		return
	}
	if found.number == 0 {
		s.lists = append(s.lists, found.list)
		found.number = len(s.lists)
	}
	*list, *number = nil, found.number
}

package screen

import "slices"

// shareLists moves the choices that several fields of the form have to
// Lists: each is then sent once. What only one field has stays there.
func (v *View) shareLists() {
	var shared listSharer
	shared.each(v.Form, shared.count)
	shared.each(v.Form, shared.move)
	v.Lists = shared.lists
}

// A listSharer finds lists that are alike.
type listSharer struct {
	seen  []seenList
	lists [][]Option
}

// A seenList is a list of the form, how many fields have it and its number
// among the shared ones, 0 while it has none.
type seenList struct {
	list   []Option
	fields int
	number int
}

// each calls do with every list of choices below some sections and the
// number that may take its place.
func (s *listSharer) each(sections []Section, do func(list *[]Option, number *int)) {
	for i := range sections {
		for k := range sections[i].Fields {
			f := &sections[i].Fields[k]
			do(&f.Options, &f.OptionsOf)
			do(&f.Suggest, &f.SuggestOf)
		}
		s.each(sections[i].Sections, do)
	}
}

func (s *listSharer) find(list []Option) *seenList {
	for i := range s.seen {
		if slices.Equal(s.seen[i].list, list) {
			return &s.seen[i]
		}
	}
	s.seen = append(s.seen, seenList{list: list})
	return &s.seen[len(s.seen)-1]
}

func (s *listSharer) count(list *[]Option, _ *int) {
	if len(*list) > 0 {
		s.find(*list).fields++
	}
}

func (s *listSharer) move(list *[]Option, number *int) {
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

package schema

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"strings"
	"unicode/utf8"
)

// check holds a value, as encoding/json decodes it, against a schema and
// names what does not fit, by JSON path. It knows the keywords that Schema
// has, as JSON Schema, draft 2020-12, defines them.
func check(s *Schema, value any) []string {
	c := checker{root: s}
	return c.check(s, value, "")
}

type checker struct{ root *Schema }

func (c checker) check(s *Schema, v any, path string) (wrong []string) {
	no := func(format string, args ...any) {
		wrong = append(wrong, path+": "+fmt.Sprintf(format, args...))
	}
	if s.Ref != "" {
		target := c.root.Defs.Get(strings.TrimPrefix(s.Ref, "#/$defs/"))
		if target == nil {
			no("no definition %s", s.Ref)
			return
		}
		wrong = append(wrong, c.check(target, v, path)...)
	}
	if s.Type != nil {
		fits := false
		names, _ := s.Type.([]string)
		if name, ok := s.Type.(string); ok {
			names = []string{name}
		}
		for _, name := range names {
			fits = fits || name == kindOf(v) || name == "integer" && kindOf(v) == "number" && v.(float64) == math.Trunc(v.(float64))
		}
		if !fits {
			no("is %s, not %v", kindOf(v), s.Type)
		}
	}
	if s.Const != nil && !reflect.DeepEqual(s.Const, v) {
		no("is not %v", s.Const)
	}
	if s.Enum != nil {
		found := false
		for _, e := range s.Enum {
			found = found || reflect.DeepEqual(e, v)
		}
		if !found {
			no("is none of %v", s.Enum)
		}
	}
	switch v := v.(type) {
	case float64:
		if s.Minimum != nil && v < *s.Minimum || s.ExclusiveMinimum != nil && v <= *s.ExclusiveMinimum || s.Maximum != nil && v > *s.Maximum {
			no("%v is out of range", v)
		}
	case string:
		n := utf8.RuneCountInString(v)
		if n < s.MinLength || s.MaxLength > 0 && n > s.MaxLength {
			no("is %d characters long", n)
		}
		if s.Pattern != "" && !regexp.MustCompile(s.Pattern).MatchString(v) {
			no("does not look like %s", s.Pattern)
		}
	case []any:
		if len(v) < s.MinItems || s.MaxItems > 0 && len(v) > s.MaxItems {
			no("has %d entries", len(v))
		}
		if s.Items != nil {
			for i, item := range v {
				wrong = append(wrong, c.check(s.Items, item, fmt.Sprintf("%s[%d]", path, i))...)
			}
		}
	case map[string]any:
		if s.MaxProperties > 0 && len(v) > s.MaxProperties {
			no("has %d fields", len(v))
		}
		for _, key := range s.Required {
			if _, ok := v[key]; !ok {
				no("has no %s", key)
			}
		}
		for key, others := range s.DependentRequired {
			for _, other := range others {
				_, given := v[key]
				if _, ok := v[other]; given && !ok {
					no("has %s without %s", key, other)
				}
			}
		}
		for key, value := range v {
			at := path + "." + key
			if s.PropertyNames != nil {
				wrong = append(wrong, c.check(s.PropertyNames, key, at)...)
			}
			if of := s.Properties.Get(key); of != nil {
				wrong = append(wrong, c.check(of, value, at)...)
			} else if of, ok := s.AdditionalProperties.(*Schema); ok {
				wrong = append(wrong, c.check(of, value, at)...)
			} else if s.AdditionalProperties == false {
				wrong = append(wrong, at+": is no field")
			}
		}
	}
	for _, of := range s.AllOf {
		wrong = append(wrong, c.check(of, v, path)...)
	}
	fitting := func(list []*Schema) (n int) {
		for _, of := range list {
			if len(c.check(of, v, path)) == 0 {
				n++
			}
		}
		return n
	}
	if len(s.AnyOf) > 0 && fitting(s.AnyOf) == 0 {
		no("fits none of several")
	}
	if n := fitting(s.OneOf); len(s.OneOf) > 0 && n != 1 {
		no("fits %d of several, not one", n)
	}
	if s.Not != nil && len(c.check(s.Not, v, path)) == 0 {
		no("is what it must not be")
	}
	if s.If != nil && len(c.check(s.If, v, path)) == 0 {
		wrong = append(wrong, c.check(s.Then, v, path)...)
	}
	return wrong
}

func kindOf(v any) string {
	switch v.(type) {
	case nil:
		return "null"
	case bool:
		return "boolean"
	case float64:
		return "number"
	case string:
		return "string"
	case []any:
		return "array"
	}
	return "object"
}

// decoded is a JSON text as check takes it.
func decoded(text []byte) (v any, err error) {
	return v, json.Unmarshal(text, &v)
}

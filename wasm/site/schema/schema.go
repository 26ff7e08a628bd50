// Package schema describes the plan and the report to other programs: as
// JSON Schema, draft 2020-12 (https://json-schema.org/draft/2020-12), and as
// types for scripts. Both are made from the Go code itself, the plan from
// what its reader asks for, the report from the types it is written from. It
// belongs to the site builder and is no part of the program that is shipped.
package schema

import (
	"bytes"
	"encoding/json"
)

// Draft is the name of the version of JSON Schema the schemas are in.
const Draft = "https://json-schema.org/draft/2020-12/schema"

// A Schema is a JSON Schema, with the keywords used here. Unit is an
// annotation of our own: the unit a number is in.
type Schema struct {
	Schema               string              `json:"$schema,omitempty"`
	Ref                  string              `json:"$ref,omitempty"`
	Title                string              `json:"title,omitempty"`
	Description          string              `json:"description,omitempty"`
	Type                 any                 `json:"type,omitempty"` // a name or a list of names
	Const                any                 `json:"const,omitempty"`
	Enum                 []any               `json:"enum,omitempty"`
	Unit                 string              `json:"unit,omitempty"`
	Minimum              *float64            `json:"minimum,omitempty"`
	ExclusiveMinimum     *float64            `json:"exclusiveMinimum,omitempty"`
	Maximum              *float64            `json:"maximum,omitempty"`
	MinLength            int                 `json:"minLength,omitempty"`
	MaxLength            int                 `json:"maxLength,omitempty"`
	Pattern              string              `json:"pattern,omitempty"`
	MinItems             int                 `json:"minItems,omitempty"`
	MaxItems             int                 `json:"maxItems,omitempty"`
	Items                *Schema             `json:"items,omitempty"`
	Properties           *Members            `json:"properties,omitempty"`
	Required             []string            `json:"required,omitempty"`
	MaxProperties        int                 `json:"maxProperties,omitempty"`
	PropertyNames        *Schema             `json:"propertyNames,omitempty"`
	AdditionalProperties any                 `json:"additionalProperties,omitempty"` // false or a schema
	DependentRequired    map[string][]string `json:"dependentRequired,omitempty"`
	AllOf                []*Schema           `json:"allOf,omitempty"`
	AnyOf                []*Schema           `json:"anyOf,omitempty"`
	OneOf                []*Schema           `json:"oneOf,omitempty"`
	Not                  *Schema             `json:"not,omitempty"`
	If                   *Schema             `json:"if,omitempty"`
	Then                 *Schema             `json:"then,omitempty"`
	Default              any                 `json:"default,omitempty"`
	Defs                 *Members            `json:"$defs,omitempty"`
}

// Members are schemas by name, in the order they were put in.
type Members struct {
	Names []string
	by    map[string]*Schema
}

// Get finds a schema, nil where there is none.
func (m *Members) Get(name string) *Schema {
	if m == nil {
		return nil
	}
	return m.by[name]
}

func (m *Members) put(name string, s *Schema) {
	if m.by == nil {
		m.by = map[string]*Schema{}
	}
	if m.by[name] == nil {
		m.Names = append(m.Names, name)
	}
	m.by[name] = s
}

// MarshalJSON writes the members in their order.
func (m *Members) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, name := range m.Names {
		if i > 0 {
			b.WriteByte(',')
		}
		key, err := json.Marshal(name)
		if err != nil {
			return nil, err
		}
		value, err := plain(m.by[name])
		if err != nil {
			return nil, err
		}
		b.Write(key)
		b.WriteByte(':')
		b.Write(value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// JSON is the text of a schema.
func (s *Schema) JSON() ([]byte, error) {
	text, err := plain(s)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := json.Indent(&b, text, "", " "); err != nil {
		return nil, err
	}
	b.WriteByte('\n')
	return b.Bytes(), nil
}

// plain is JSON that keeps <, > and & as they are.
func plain(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimSpace(b.Bytes()), nil
}

func ref(name string) *Schema { return &Schema{Ref: "#/$defs/" + name} }

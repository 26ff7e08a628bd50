package schema

import (
	"encoding/json"
	"fmt"
	"strings"
)

// Types writes the types of the schemas for scripts, as a TypeScript
// declaration. The head stands before them as it is.
func Types(head string, all ...*Schema) (string, error) {
	w := typeWriter{}
	w.out.WriteString(head)
	said := map[string]bool{}
	declare := func(name string, s *Schema) {
		if !said[name] {
			w.declare(name, s)
		}
		said[name] = true
	}
	for _, s := range all {
		declare(s.Title, s)
		for _, name := range s.Defs.Names {
			declare(name, s.Defs.Get(name))
		}
	}
	return w.out.String(), w.err
}

// ForScripts are the types of all that rigging.js takes and gives.
func ForScripts(head, root string) (string, error) {
	all := []*Schema{Plan()}
	for _, of := range []func(string) (*Schema, error){Report, Sample, Places, Changes} {
		s, err := of(root)
		if err != nil {
			return "", err
		}
		all = append(all, s)
	}
	return Types(head, all...)
}

// RiggingHead declares what rigging.js gives to scripts of other pages.
const RiggingHead = `// Types of rigging.js, made by the site builder from the program's own code.
// Numbers are in the unit their name ends in.
` + Calculator + `
/** Loads the program, once for all callers. The promise fails where it cannot be loaded. */
export function load(): Promise<Calculator>;

/** Gives the invented example. */
export function demo(): Promise<Plan>;

/** The version of the page this script stands in, "" elsewhere. */
export function version(): string;
`

// Calculator declares what is loaded.
const Calculator = `
/** The calculator, once its program runs. */
export interface Calculator {
  /** Computes a plan. It never throws: what is wrong is in the report's problems, and the verdict is then unknown, or over. How each number came about is in the report's working only where that is asked for. */
  evaluate(plan: Plan, options?: { working?: boolean }): Report;
  /** Computes many plans that differ from one in a few values. It never throws: what is wrong with the request is in problems, and with a variation in its verdict. */
  vary(request: Variations): Varied;
  /** Says how sure a plan's numbers are: draws everything that is not known exactly again and again, 2,000 times if not told otherwise. The same seed draws the same. Nothing is drawn twice where a call asks for more draws of the same plan than the last. */
  sample(plan: Plan, options?: { draws?: number; seed?: number }): Promise<Sample>;
  /** Says where a point may stand: what the plan comes to with the point at each bearing and distance, from, to and in steps, at most 20,000 places. */
  places(plan: Plan, options: { point: string; bearings_deg: [number, number, number]; distances_m: [number, number, number] }): Promise<Places>;
  /** Says what would make a plan right: the smallest single changes that bring it within its limits, or two together where no single one serves. tie_up_to_m is as high as the leader allows the line on the stem, gear_list the crew's own gear as the page saves it. */
  changes(plan: Plan, options?: { tie_up_to_m?: number; gear_list?: unknown }): Promise<Changes>;
  /** Called once with a sentence when the program has ended and gives no results any more. */
  onfatal: ((why: string) => void) | null;
}

/** Plans that differ from one plan in a few values. At most 20,000. */
export interface Variations {
  plan: Plan;
  /** The fields that vary, such as tree.lean_deg or points[4].distance_m. */
  paths: string[];
  /** A row for each variation, in it a value for each path; null takes a member out, so that its default counts. */
  values: unknown[][];
  /** What to tell of each, by its place in the report: verdict, pull.peak_kN, gear[main rope].use; also why and why_path, the first reason for the verdict. What only the pull decides (tree and pull but for hold_puller_to_kN) takes the least time. */
  want: string[];
}

/** What came of them. */
export interface Varied {
  /** For each variation what is wanted; null where it is not known or not there. */
  rows: (number | string | boolean | null)[][];
  problems: Problem[];
}
`

type typeWriter struct {
	out strings.Builder
	err error
}

func (w *typeWriter) declare(name string, s *Schema) {
	w.out.WriteByte('\n')
	w.out.WriteString(comment("", s))
	if s.Properties == nil {
		fmt.Fprintf(&w.out, "export type %s = %s;\n", name, w.of(s, ""))
		return
	}
	fmt.Fprintf(&w.out, "export interface %s %s\n", name, w.of(s, ""))
}

// comment is what is said of a value.
func comment(indent string, s *Schema) string {
	text := s.Description
	if s.Title != "" && s.Properties == nil {
		text = strings.TrimSpace(s.Title + ". " + text)
	}
	if text != "" && !strings.HasSuffix(text, ".") && !strings.HasSuffix(text, ")") {
		text += "."
	}
	if r := rangeText(s); r != "" {
		text = strings.TrimSpace(text + " " + r)
	}
	if text == "" {
		return ""
	}
	return indent + "/** " + strings.ReplaceAll(text, "*/", "* /") + " */\n"
}

func rangeText(s *Schema) string {
	unit := ""
	if s.Unit != "" {
		unit = " " + s.Unit
	}
	switch {
	case s.Maximum == nil && unit != "":
		return "In" + unit + "."
	case s.Maximum == nil:
		return ""
	case s.ExclusiveMinimum != nil:
		return fmt.Sprintf("Above %v, up to %v%s.", *s.ExclusiveMinimum, *s.Maximum, unit)
	case s.Minimum != nil:
		return fmt.Sprintf("%v to %v%s.", *s.Minimum, *s.Maximum, unit)
	}
	return ""
}

// of writes the type of a value.
func (w *typeWriter) of(s *Schema, indent string) string {
	switch {
	case s.Ref != "":
		return strings.TrimPrefix(s.Ref, "#/$defs/")
	case s.Const != nil:
		return w.literal(s.Const)
	case s.Enum != nil:
		var all []string
		for _, v := range s.Enum {
			all = append(all, w.literal(v))
		}
		return strings.Join(all, " | ")
	case s.Properties != nil:
		return w.members(s, indent)
	case len(s.OneOf) > 0:
		var all []string
		for _, one := range s.OneOf {
			all = append(all, w.of(one, indent))
		}
		return strings.Join(all, " | ")
	}
	switch t := s.Type.(type) {
	case []string:
		return strings.Join(t, " | ") // number and null are called the same here
	case string:
		switch t {
		case "integer":
			return "number"
		case "array":
			item := w.of(s.Items, indent)
			if strings.Contains(item, "|") {
				item = "(" + item + ")"
			}
			return item + "[]"
		case "object":
			if value, ok := s.AdditionalProperties.(*Schema); ok {
				return "{ [path: string]: " + w.of(value, indent) + " }"
			}
		}
		return t
	}
	return "unknown"
}

func (w *typeWriter) members(s *Schema, indent string) string {
	var out strings.Builder
	out.WriteString("{\n")
	required := map[string]bool{}
	for _, key := range s.Required {
		required[key] = true
	}
	for _, key := range s.Properties.Names {
		value := s.Properties.Get(key)
		out.WriteString(comment(indent+"  ", value))
		mark := "?"
		if required[key] {
			mark = ""
		}
		fmt.Fprintf(&out, "%s  %s%s: %s;\n", indent, key, mark, w.of(value, indent+"  "))
	}
	return out.String() + indent + "}"
}

func (w *typeWriter) literal(v any) string {
	text, err := json.Marshal(v)
	if err != nil {
		w.err = err
	}
	return string(text)
}

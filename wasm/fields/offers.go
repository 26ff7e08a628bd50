package fields

import (
	"pullline/wasm/draft"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
)

// Suggestions are the values offered for the field at a path; spec is the
// field's entry in the catalogue.
func Suggestions(d *draft.Plan, path string, spec *Spec) []parts.Option {
	switch spec.Path {
	case "lines[].path[].efficiency", "lines[].tackle.efficiency", "lines[].tackle.haul_path[].efficiency":
		return offer.Sheaves.In(d.Locale)
	case "cut.face_opening_deg":
		return offer.FaceOpenings.In(d.Locale)
	case "tree.drag_coefficient":
		return offer.Drags.In(d.Locale)
	case "points[].anchor.traction":
		return offer.Tractions.In(d.Locale)
	case "points[].anchor.turning_Nm_per_kg":
		return offer.Turnings.In(d.Locale)
	case "lines[].rope.mass_kgpm":
		return offer.RopeMasses.In(d.Locale)
	case "lines[].rope.stiffness_kN":
		return offer.RopeStiffness.In(d.Locale)
	case "gear[].mbl_kN":
		owner, _ := draft.LastKey(path)
		switch d.Text(owner + ".kind") {
		case "wire_rope":
			return offer.WireBreaking.In(d.Locale)
		case "fibre_rope":
			return offer.FibreBreaking.In(d.Locale)
		}
	case "gear[].design_factor":
		return offer.DesignFactors.In(d.Locale)
	case "gear[].hitch_factor":
		owner, _ := draft.LastKey(path)
		switch d.Text(owner + ".kind") {
		case "shackle", "block", "winch":
			return nil
		}
		return offer.Hitches.In(d.Locale)
	case "gear[].reductions[].factor":
		parts := draft.ParsePath(path)
		i, _ := parts[1].(int)
		list, _ := parts[0].(string)
		switch d.Text(draft.Elem(list, i) + ".kind") {
		case "wire_rope":
			return offer.WireReductions.In(d.Locale)
		case "fibre_rope":
			return offer.Knots.In(d.Locale)
		case "shackle":
			return offer.SideLoads.In(d.Locale)
		case "sling", "chain":
			return offer.SlingReductions.In(d.Locale)
		}
		return offer.AllReductions.In(d.Locale)
	case "points[].anchor.soil_factor":
		owner, _ := draft.LastKey(path)
		if d.Text(owner+".kind") == "pickets" {
			return offer.PicketSoils.In(d.Locale)
		}
		return offer.LogSoils.In(d.Locale)
	}
	return nil
}

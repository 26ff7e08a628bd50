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
		return offer.Sheaves.Options()
	case "cut.face_opening_deg":
		return offer.FaceOpenings.Options()
	case "tree.drag_coefficient":
		return offer.Drags.Options()
	case "points[].anchor.traction":
		return offer.Tractions.Options()
	case "points[].anchor.turning_Nm_per_kg":
		return offer.Turnings.Options()
	case "lines[].rope.mass_kgpm":
		return offer.RopeMasses.Options()
	case "lines[].rope.stiffness_kN":
		return offer.RopeStiffness.Options()
	case "gear[].mbl_kN":
		owner, _ := draft.LastKey(path)
		switch d.Text(owner + ".kind") {
		case "wire_rope":
			return offer.WireBreaking.Options()
		case "fibre_rope":
			return offer.FibreBreaking.Options()
		}
	case "gear[].design_factor":
		return offer.DesignFactors.Options()
	case "gear[].hitch_factor":
		owner, _ := draft.LastKey(path)
		switch d.Text(owner + ".kind") {
		case "shackle", "block", "winch":
			return nil
		}
		return offer.Hitches.Options()
	case "gear[].reductions[].factor":
		parts := draft.ParsePath(path)
		i, _ := parts[1].(int)
		list, _ := parts[0].(string)
		switch d.Text(draft.Elem(list, i) + ".kind") {
		case "wire_rope":
			return offer.WireReductions.Options()
		case "fibre_rope":
			return offer.Knots.Options()
		case "shackle":
			return offer.SideLoads.Options()
		case "sling", "chain":
			return offer.SlingReductions.Options()
		}
		return offer.AllReductions.Options()
	case "points[].anchor.soil_factor":
		owner, _ := draft.LastKey(path)
		if d.Text(owner+".kind") == "pickets" {
			return offer.PicketSoils.Options()
		}
		return offer.LogSoils.Options()
	}
	return nil
}

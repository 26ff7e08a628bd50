package fields

import (
	"pullline/rigging/plan/field"
	"pullline/wasm/draft"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
)

// Suggestions are the values offered for the field at a path; spec is the
// field's entry in the catalogue.
func Suggestions(d *draft.Plan, path string, spec *Spec) []parts.Option {
	switch spec.Field {
	case field.StationEfficiency, field.TackleEfficiency, field.HaulEfficiency:
		return offer.Sheaves.In(d.Locale)
	case field.FaceOpening:
		return offer.FaceOpenings.In(d.Locale)
	case field.DragCoefficient:
		return offer.Drags.In(d.Locale)
	case field.MachineTraction:
		return offer.Tractions.In(d.Locale)
	case field.AnchorTurning:
		return offer.Turnings.In(d.Locale)
	case field.RopeMass:
		return offer.RopeMasses.In(d.Locale)
	case field.RopeStiffness:
		return offer.RopeStiffness.In(d.Locale)
	case field.PieceBreaking:
		owner, _ := draft.LastKey(path)
		switch d.Text(owner + ".kind") {
		case field.WireRope:
			return offer.WireBreaking.In(d.Locale)
		case field.FibreRope:
			return offer.FibreBreaking.In(d.Locale)
		}
	case field.DesignFactor:
		return offer.DesignFactors.In(d.Locale)
	case field.HitchFactor:
		owner, _ := draft.LastKey(path)
		switch d.Text(owner + ".kind") {
		case field.Shackle, field.Block, field.Winch:
			return nil
		}
		return offer.Hitches.In(d.Locale)
	case field.ReductionFactor:
		parts := draft.ParsePath(path)
		i, _ := parts[1].(int)
		list, _ := parts[0].(string)
		switch d.Text(draft.Elem(list, i) + ".kind") {
		case field.WireRope:
			return offer.WireReductions.In(d.Locale)
		case field.FibreRope:
			return offer.Knots.In(d.Locale)
		case field.Shackle:
			return offer.SideLoads.In(d.Locale)
		case field.Sling, field.Chain:
			return offer.SlingReductions.In(d.Locale)
		}
		return offer.AllReductions.In(d.Locale)
	case field.LogSoil:
		owner, _ := draft.LastKey(path)
		if field.AnchorNamed(d.Text(owner+".kind")) == field.Pickets {
			return offer.PicketSoils.In(d.Locale)
		}
		return offer.LogSoils.In(d.Locale)
	}
	return nil
}

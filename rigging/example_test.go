package rigging_test

import (
	"fmt"

	"pullline/rigging"
)

// The tree of the examples: invented, leaning 4° straight back.
func leaningTree() rigging.Tree {
	return rigging.Tree{
		Height: 28, Diameter: 80 * rigging.CM, FormFactor: 0.4, Density: 900, Strength: 40 * rigging.MPa,
		CrownShare: 0.2, CrownCentre: 18, Lean: 4 * rigging.Deg, LeanBearing: 180 * rigging.Deg,
	}
}

// A line from 14 m up the stem straight to a point 50 m ahead, cut at 0.4 m.
func straightPull(t rigging.Tree) rigging.Line {
	return rigging.Line{Share: 1, Path: []rigging.Station{
		rigging.StemStation(t, 0.4, 14, 1),
		{At: rigging.AtBearing(0, 50, -0.4)},
	}}
}

func setup() rigging.Setup {
	t := leaningTree()
	return rigging.Setup{
		Tree: t, Stump: 0.4, FaceOpening: 60 * rigging.Deg, Hinge: rigging.GuideHinge(t.Diameter),
		Lines: []rigging.Line{straightPull(t)}, Allowance: 1.5,
	}
}

// A unit constant turns a number in its unit into SI, and back by division.
func Example_units() {
	limit := 3.2 * rigging.TonneForce
	fmt.Printf("3.2 t is %.1f kN\n", limit/rigging.KN)
	fmt.Printf("30° is %.4f rad\n", 30*rigging.Deg)
	// Output:
	// 3.2 t is 31.4 kN
	// 30° is 0.5236 rad
}

// A bearing is clockwise from the lay: a place at 90° is to the right, where y
// is below 0.
func ExampleAtBearing() {
	at := rigging.AtBearing(90*rigging.Deg, 10, 2)
	fmt.Printf("%.0f m along the lay, %.0f m to the right, %.0f m up\n", at.X, -at.Y, at.Z)
	// Output: 0 m along the lay, 10 m to the right, 2 m up
}

// What the hinge carries: the tree above it as one mass.
func ExampleTree_Body() {
	b := leaningTree().Body(0.4)
	fmt.Printf("%.0f kg weigh %.0f kN\n", b.Mass, b.Weight/rigging.KN)
	fmt.Printf("its centre is %.1f m up the stem and %.2f m behind the hinge\n", b.CentreHeight, -b.Centre.X)
	// Output:
	// 5901 kg weigh 58 kN
	// its centre is 10.0 m up the stem and 0.67 m behind the hinge
}

// A hinge of 64 × 8 cm in wood of 40 MPa, when it has gone fully plastic.
func ExampleHinge_Moment() {
	h := rigging.GuideHinge(80 * rigging.CM)
	fmt.Printf("a hinge %.0f cm long and %.0f cm thick resists %.1f kN·m\n", h.Length/rigging.CM, h.Left/rigging.CM, h.Moment(rigging.HingePlastic, 40*rigging.MPa)/rigging.KNm)
	// Output: a hinge 64 cm long and 8 cm thick resists 41.0 kN·m
}

// The same hinge as a beam on edge, under 20 kN·m to the left.
func ExampleHinge_SideStress() {
	h := rigging.GuideHinge(80 * rigging.CM)
	strength := rigging.HingeReliedOn * 40 * rigging.MPa
	fmt.Printf("20 kN·m to a side is %.0f %% of what it is relied on\n", 100*h.SideStress(20*rigging.KNm, 0)/strength)
	// Output: 20 kN·m to a side is 12 % of what it is relied on
}

// A line is worked out for each newton of the tension that leaves the stem toward
// the hauling end.
func ExampleLine_At() {
	st, err := straightPull(leaningTree()).At(0)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f m of rope, %.0f° down from the stem\n", st.Length, -st.Units[0].Elevation()/rigging.Deg)
	fmt.Printf("each kN turns the tree with %.1f kN·m\n", st.Forward)
	// Output:
	// 52.8 m of rope, 15° down from the stem
	// each kN turns the tree with 12.8 kN·m
}

// One line through many turns: it is looked through once.
func ExampleCourse_Through() {
	line := straightPull(leaningTree())
	course, err := line.Lay()
	if err != nil {
		fmt.Println(err)
		return
	}
	states, err := course.Through([]float64{0, 10 * rigging.Deg, 20 * rigging.Deg})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, st := range states {
		fmt.Printf("%.2f m of rope, a lever of %.1f m\n", st.Length, st.Forward)
	}
	// Output:
	// 52.83 m of rope, a lever of 12.8 m
	// 50.53 m of rope, a lever of 13.4 m
	// 48.17 m of rope, a lever of 13.6 m
}

// Rope turned by 90° over a block of efficiency 0.9, a pull of 10 kN.
func ExampleSheaveRatio() {
	haul := 10 * rigging.KN * rigging.SheaveRatio(0.9, 90*rigging.Deg)
	fmt.Printf("10 kN in, %.2f kN out; the block carries %.1f kN\n", haul/rigging.KN, rigging.BlockLoad(10*rigging.KN, haul, 90*rigging.Deg)/rigging.KN)
	// Output: 10 kN in, 10.77 kN out; the block carries 14.7 kN
}

// Three parts on the load, the haul leaving the fixed block, every sheave of
// efficiency 0.9.
func ExampleReeving_Solve() {
	reeving, err := rigging.StagesReeving([]rigging.TackleStage{{Parts: 3, HaulFrom: rigging.HaulFixed}})
	if err != nil {
		fmt.Println(err)
		return
	}
	t, err := reeving.Solve(0.9)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f m hauled for each metre, %.2f times the haul\n", t.Ideal, t.Actual)
	fmt.Printf("30 kN on the load take %.1f kN of haul\n", 30/t.Actual)
	// Output:
	// 3 m hauled for each metre, 2.44 times the haul
	// 30 kN on the load take 12.3 kN of haul
}

// The closed form of the same tackle: S·(η + η² + η³).
func ExampleSimpleAdvantage() {
	advantage, err := rigging.SimpleAdvantage(3, rigging.HaulFixed, 0.9)
	fmt.Printf("%.3f %v\n", advantage, err)
	// Output: 2.439 <nil>
}

// The pull through the fall.
func ExampleSetup_Solve() {
	pull, err := setup().Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("it starts at %.1f kN and takes %.1f kN at most, at %.0f°\n", pull.Start/rigging.KN, pull.Peak/rigging.KN, pull.PeakTurn/rigging.Deg)
	fmt.Printf("planned for %.1f kN; the tree falls by itself from %.0f° on, after %.1f m of haul\n", pull.Planned/rigging.KN, pull.Commit/rigging.Deg, pull.Haul[0])
	// Output:
	// it starts at 6.2 kN and takes 6.2 kN at most, at 0°
	// planned for 9.3 kN; the tree falls by itself from 8° on, after 1.9 m of haul
}

// A tree that leans to a side too, with a line that holds it there.
func ExampleSetup_Solve_holdLine() {
	s := setup()
	s.Tree.LeanBearing = 150 * rigging.Deg // back and to the right
	hold := rigging.Line{Hold: true, Tended: true, Path: []rigging.Station{
		rigging.StemStation(s.Tree, s.Stump, 12, 1),
		{At: rigging.AtBearing(265*rigging.Deg, 35, -0.4)},
	}}
	s.Lines[0].Path[0] = rigging.StemStation(s.Tree, s.Stump, 14, 1)
	for _, lines := range [][]rigging.Line{s.Lines, append(s.Lines, hold)} {
		s.Lines = lines
		pull, err := s.Solve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%d lines: %.1f kN·m are left on the hinge to the side\n", len(lines), pull.Side.Moment/rigging.KNm)
	}
	// Output:
	// 1 lines: -19.3 kN·m are left on the hinge to the side
	// 2 lines: 0.0 kN·m are left on the hinge to the side
}

// What a set-up cannot do is an error that says where, never a number.
func ExampleCannotPullError() {
	s := setup()
	s.Lines[0].Path[1].At = rigging.AtBearing(180*rigging.Deg, 50, -0.4) // behind the tree
	_, err := s.Solve()
	fmt.Println(err)
	// Output: at a turn of 0° the pull lines have no lever toward the lay: they cannot pull the tree over from there
}

// How long the crew has once the tree falls by itself.
func ExampleSetup_Fall() {
	s := setup()
	pull, err := s.Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	m, err := s.Fall(pull, rigging.BriskHaul)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("the top lands %.0f m out, %.1f s after the tree falls by itself at the soonest\n", m.Top.X, m.Soonest)
	// Output: the top lands 28 m out, 3.3 s after the tree falls by itself at the soonest
}

// A pull of 20 kN level, 15° up, on a rated point, on a machine, and on a tree with
// its sling at 0.5 m, which counts as a metre. The level part counts for the last two.
func ExampleAnchor() {
	level := rigging.AtBearing(0, 20*rigging.KN, 0)
	pull := level.Add(rigging.Vec{Z: level.X * 0.268})
	for _, a := range []rigging.Anchor{
		rigging.RatedAnchor{Capacity: 40 * rigging.KN},
		rigging.MachineAnchor{Mass: 6000, Traction: 0.5, Rated: 40 * rigging.KN},
		rigging.TreeAnchor{Diameter: 0.5, Height: 22, FormFactor: 0.4, Density: 900, Turning: 100, SlingHeight: 0.5, Factor: 3},
	} {
		counts, holds, err := a.Hold(pull)
		fmt.Printf("%.1f kN on what holds %.1f kN: %s, %v\n", counts/rigging.KN, holds/rigging.KN, rigging.Judge(counts, holds), err)
	}
	// Output:
	// 20.7 kN on what holds 40.0 kN: within, <nil>
	// 20.0 kN on what holds 26.7 kN: within, <nil>
	// 20.0 kN on what holds 51.8 kN: within, <nil>
}

// Two fixed legs, 30° to either side of a pull of 20 kN.
func ExampleBridle_Share() {
	b := rigging.Bridle{Legs: []rigging.Vec{rigging.AtBearing(150*rigging.Deg, 4, 0), rigging.AtBearing(210*rigging.Deg, 4, 0)}}
	shared, err := b.Share(rigging.AtBearing(0, 20*rigging.KN, 0))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f kN and %.1f kN\n", shared.Tension[0]/rigging.KN, shared.Tension[1]/rigging.KN)
	// Output: 11.5 kN and 11.5 kN
}

// A log buried 1.5 m deep, 2 m long and 40 cm thick, pulled level in loam.
func ExampleBuriedLogAnchor_Hold() {
	log := rigging.BuriedLogAnchor{Depth: 1.5, Length: 2, Diameter: 40 * rigging.CM, Slot: rigging.BuriedLogSlot, SoilFactor: 1, Factor: rigging.GroundFactor}
	counts, holds, err := log.Hold(rigging.AtBearing(0, 20*rigging.KN, 0))
	fmt.Printf("%.0f kN on what holds %.1f kN, %v\n", counts/rigging.KN, holds/rigging.KN, err)
	// Output: 20 kN on what holds 64.8 kN, <nil>
}

// A rope of 190 kN breaking load at a design factor of 5, with a splice that keeps
// 0.9 of it.
func ExampleCapacity() {
	limit := rigging.WorkingLimit(190*rigging.KN, 5)
	fmt.Printf("%.1f kN\n", rigging.Capacity(limit, 1, 0.9)/rigging.KN)
	// Output: 34.2 kN
}

// A capacity with anything missing is none, and nothing is judged by it.
func ExampleCapacity_missing() {
	limit := rigging.WorkingLimit(190*rigging.KN, 0) // no design factor
	fmt.Println(rigging.Capacity(limit, 1), rigging.Judge(10*rigging.KN, rigging.Capacity(limit, 1)))
	// Output: NaN unknown
}

// Up to 80 % of the capacity is within, up to all of it near.
func ExampleJudge() {
	for _, load := range []float64{24, 25, 30, 31} {
		fmt.Printf("%.0f of 30 kN: %s\n", load, rigging.Judge(load*rigging.KN, 30*rigging.KN))
	}
	// Output:
	// 24 of 30 kN: within
	// 25 of 30 kN: near
	// 30 of 30 kN: near
	// 31 of 30 kN: over
}

// Over outranks unknown, unknown outranks near.
func ExampleVerdict_Worse() {
	fmt.Println(rigging.Near.Worse(rigging.Unknown), rigging.Unknown.Worse(rigging.Over))
	// Output: unknown over
}

// Two legs of a basket with 60° between them carry 1.73 times what one does.
func ExampleBasketFactor() {
	fmt.Printf("%.2f\n", rigging.BasketFactor(60*rigging.Deg))
	// Output: 1.73
}

// A level leg of 50 m of wire rope of 1 kg/m at 15 kN.
func ExampleCatenary() {
	sag := rigging.Catenary(rigging.Vec{X: 50}, 1, 15*rigging.KN)
	fmt.Printf("it sags %.2f m, and its ends pull %.1f° off the chord\n", sag.Mid, sag.EndAngle/rigging.Deg)
	// Output: it sags 0.20 m, and its ends pull 0.9° off the chord
}

// The same leg stretched, EA 5500 kN, and what flies back if it parts.
func ExampleStoredEnergy() {
	fmt.Printf("%.0f cm, %.1f kJ\n", rigging.Stretch(15*rigging.KN, 50, 5500*rigging.KN)/rigging.CM, rigging.StoredEnergy(15*rigging.KN, 50, 5500*rigging.KN)/1000)
	// Output: 14 cm, 1.0 kJ
}

// Three turns round a post at a friction of 0.2.
func ExampleCapstanRatio() {
	fmt.Printf("%.0f\n", rigging.CapstanRatio(0.2, 3*360*rigging.Deg))
	// Output: 43
}

// A figure of the tables comes with its source.
func ExampleFindSpecies() {
	s, ok := rigging.FindSpecies("radiata_pine")
	fmt.Println(ok, s.Name)
	fmt.Printf("%.0f kg/m³ green\n", s.Density.Value)
	_, ok = rigging.FindSpecies("no such tree")
	fmt.Println(ok)
	// Output:
	// true radiata pine
	// 1000 kg/m³ green
	// false
}

// A height by two angles from 30 m off, with its ±.
func ExampleMeasureHeightByAngles() {
	of := func(value, plusMinus float64) rigging.Measured {
		return rigging.Measured{Value: value, PlusMinus: plusMinus}
	}
	h, err := rigging.MeasureHeightByAngles(of(30, 0.5), of(41*rigging.Deg, 0.5*rigging.Deg), of(-3*rigging.Deg, 0.5*rigging.Deg))
	fmt.Printf("%.1f m ± %.1f m, %v\n", h.Value, h.PlusMinus, err)
	// Output: 27.7 m ± 0.7 m, <nil>
}

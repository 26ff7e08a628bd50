package draft

import (
	"strconv"
	"strings"
)

// Station tells what a station of a line is at: "stem", "point/ID" or "" for
// neither.
func (d *Plan) Station(path string) string {
	if d.Has(path + ".point") {
		v, _ := d.At(path + ".point")
		return "point/" + Written(v)
	}
	if _, ok := d.At(path + ".stem_m"); ok {
		return "stem"
	}
	return ""
}

// GearPlace tells where a piece of gear sits: "line/ID", "stem/ID",
// "point/ID", or "" if that is not said. A piece that is said to be in two
// places at once gives both, which is none of the choices.
func (d *Plan) GearPlace(path string) string {
	line, _ := d.At(path + ".line")
	point, _ := d.At(path + ".point")
	place, _ := d.At(path + ".place")
	at := ""
	if line != nil {
		at = "line/" + Written(line)
		if place != nil {
			at = Written(place) + "/" + Written(line)
		}
	} else if place != nil {
		at = Written(place) + "/"
	}
	if point != nil {
		if at != "" {
			at += " + "
		}
		at += "point/" + Written(point)
	}
	return at
}

// GearPlaceWords says where a piece of gear sits.
func (d *Plan) GearPlaceWords(path string) string {
	at := d.GearPlace(path)
	if kind, id, ok := strings.Cut(at, "/"); ok && !strings.Contains(at, " + ") {
		switch kind {
		case "line":
			return d.Say("on line %s", id)
		case "stem":
			return d.Say("at the {stem}, line %s", id)
		case "point":
			return d.Say("at point %s", id)
		}
	}
	return at
}

// FreeID is a name that none of a list has yet: the one asked for, or that
// with a number after it.
func (d *Plan) FreeID(list, id string) string {
	if d.IndexByID(list, id) < 0 {
		return id
	}
	for i := 2; ; i++ {
		if next := id + " " + strconv.Itoa(i); d.IndexByID(list, next) < 0 {
			return next
		}
	}
}

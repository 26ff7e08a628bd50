package plan

import (
	"errors"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan/text"
)

// What package rigging or jsontext cannot work out, as a problem tells it: the
// key of a sentence and its arguments.

func unreadable(err error) (key string, args []any) {
	var at *jsontext.Error
	if !errors.As(err, &at) {
		return "unreadable.other", nil
	}
	switch at.Fault {
	case jsontext.Short:
		return "unreadable.empty", nil
	case jsontext.Trailing:
		return "unreadable.trailing", nil
	case jsontext.Many:
		return "unreadable.many", []any{jsontext.MaxValues}
	case jsontext.Deep:
		return "unreadable.deep", nil
	}
	return "unreadable.syntax", []any{at.Offset + 1}
}

// lineFault is of a line with so many stations.
func lineFault(err error, line string, stations int) (key string, args []any) {
	args = []any{quote(line)}
	var at *rigging.LineError
	errors.As(err, &at)
	switch {
	case at == nil:
		return "no_pull", nil
	case at.Fault == rigging.TooShort:
		return "path_short", append(args, stations)
	case at.Fault == rigging.OffStem:
		return "path_off_stem", args
	case at.Fault == rigging.EndsOnStem:
		return "path_ends_on_stem", args
	}
	return "path_same_place", args
}

func pullFault(err error) (key string, args []any) {
	var stuck *rigging.CannotPullError
	switch {
	case !errors.As(err, &stuck):
		return "no_pull", nil
	case stuck.NoCommit:
		return "no_commit", nil
	}
	return "no_lever", []any{degrees(stuck.Turn)}
}

func legsFault(err error) string {
	switch {
	case errors.Is(err, rigging.ErrLegsTogether):
		return "legs_in_line"
	case errors.Is(err, rigging.ErrLegsAcross):
		return "legs_across"
	case errors.Is(err, rigging.ErrLegsPush):
		return "legs_push"
	}
	return "legs_other"
}

func anchorFault(err error, point string) (key string, args []any) {
	args = []any{quote(point)}
	var table *rigging.TableError
	if !errors.As(err, &table) || table.Fault == "" {
		return "anchor_other", args
	}
	switch table.Fault {
	case "log_shallow":
		args = append(args, metres(rigging.LeastLogDepth, text.Up))
	case "picket_group":
		args = append(args, text.Words(table.Accepted))
	}
	return table.Fault, args
}

func tackleFault(err error) (key string, args []any) {
	var reeving *rigging.ReevingError
	if !errors.As(err, &reeving) || reeving.Fault == "" {
		return "tackle_other", nil
	}
	for _, v := range reeving.Values {
		switch x := v.(type) {
		case string:
			args = append(args, quote(x))
		case rigging.NodeKind:
			args = append(args, text.Words(x))
		case float64:
			args = append(args, plain(x))
		default:
			args = append(args, v)
		}
	}
	return "tackle." + reeving.Fault, args
}

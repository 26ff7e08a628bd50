package build

import (
	"bytes"
	"encoding/binary"
	"errors"
)

// The linker starts a data segment anew after a few zero bytes, some eighty
// thousand times. Joined, the zeros in between pack to next to nothing and the
// program is a fifteenth smaller once packed.

// slim joins the data segments of a linked program. The memory it starts with
// stays the same, and so does everything else in it.
func slim(program []byte) ([]byte, error) {
	const header = 8 // magic number and version (WebAssembly core specification 5.5.16)
	if len(program) < header {
		return nil, errors.New("not a WebAssembly module")
	}
	out := bytes.Clone(program[:header])
	r := &wasmReader{rest: program[header:]}
	for len(r.rest) > 0 {
		id, size := r.byte(), r.unsigned()
		body := r.take(int(size))
		if r.bad {
			return nil, errors.New("a section of the module is cut short")
		}
		if id == dataSection {
			segments, err := readSegments(body)
			if err != nil {
				return nil, err
			}
			body = writeSegments(split(joined(segments)))
		}
		out = append(out, id)
		out = binary.AppendUvarint(out, uint64(len(body)))
		out = append(out, body...)
	}
	return out, nil
}

const (
	dataSection = 11   // WebAssembly core specification 5.5.14
	opI32Const  = 0x41 // 5.4.7
	opEnd       = 0x0b
)

// A segment is a stretch of the memory the program starts with.
type segment struct {
	at   int
	body []byte
}

func readSegments(body []byte) ([]segment, error) {
	r := &wasmReader{rest: body}
	list := make([]segment, 0, 1<<16)
	for range r.unsigned() {
		active, op := r.unsigned(), r.byte()
		at := r.signed()
		end := r.byte()
		s := segment{int(at), r.take(int(r.unsigned()))}
		if r.bad || active != 0 || op != opI32Const || end != opEnd || at < 0 {
			return nil, errors.New("a data segment of the module is not as the linker writes them")
		}
		list = append(list, s)
	}
	return list, nil
}

// joined is the memory the segments make, from address 0.
func joined(segments []segment) []byte {
	size := 0
	for _, s := range segments {
		size = max(size, s.at+len(s.body))
	}
	image := make([]byte, size)
	for _, s := range segments {
		copy(image[s.at:], s.body)
	}
	return image
}

// longGap is from how many zeros on a new segment is worth its head.
const longGap = 4096

// split cuts the memory into segments at its long stretches of zeros.
func split(image []byte) []segment {
	var list []segment
	for at := 0; at < len(image); {
		for at < len(image) && image[at] == 0 {
			at++
		}
		end, zeros := at, 0
		for i := at; i < len(image) && zeros < longGap; i++ {
			if image[i] == 0 {
				zeros++
			} else {
				zeros, end = 0, i+1
			}
		}
		if end > at {
			list = append(list, segment{at, image[at:end]})
		}
		at = max(end, at+1)
	}
	return list
}

func writeSegments(list []segment) []byte {
	out := binary.AppendUvarint(nil, uint64(len(list)))
	for _, s := range list {
		out = append(out, 0, opI32Const)
		out = appendSigned(out, int64(s.at))
		out = append(out, opEnd)
		out = binary.AppendUvarint(out, uint64(len(s.body)))
		out = append(out, s.body...)
	}
	return out
}

// A wasmReader reads a module's bytes; bad is set once they do not suffice.
type wasmReader struct {
	rest []byte
	bad  bool
}

func (r *wasmReader) take(n int) []byte {
	if n < 0 || n > len(r.rest) {
		r.bad, r.rest = true, nil
		return nil
	}
	body := r.rest[:n]
	r.rest = r.rest[n:]
	return body
}

func (r *wasmReader) byte() byte {
	if b := r.take(1); b != nil {
		return b[0]
	}
	return 0
}

func (r *wasmReader) unsigned() uint64 {
	v, n := binary.Uvarint(r.rest)
	r.take(max(n, 0))
	r.bad = r.bad || n <= 0
	return v
}

// signed reads a number in signed LEB128 (5.2.2).
func (r *wasmReader) signed() int64 {
	v, shift := int64(0), 0
	for {
		b := r.byte()
		v |= int64(b&0x7f) << shift
		shift += 7
		if b < 0x80 || shift > 63 {
			if b&0x40 != 0 && shift < 64 {
				v |= -1 << shift
			}
			return v
		}
	}
}

func appendSigned(out []byte, v int64) []byte {
	for {
		b := byte(v & 0x7f)
		v >>= 7
		if v == 0 && b&0x40 == 0 || v == -1 && b&0x40 != 0 {
			return append(out, b)
		}
		out = append(out, b|0x80)
	}
}

package build

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
)

// The linker is quick rather than thrifty. Two things make the program a
// seventh smaller once packed and leave what it does untouched:
//
//   - The linker starts a data segment anew after a few zero bytes, some sixty
//     thousand times. Joined, the zeros in between pack to next to nothing.
//   - For every instruction it notes the line of the source it came from and
//     the function it was written in before that was inlined, to be printed
//     when the program crashes. A page has nobody to read that; the names of
//     the functions stay.

// slim makes a linked program smaller without changing what it does.
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
			image := joined(segments)
			if err := dropLines(image); err != nil {
				return nil, err
			}
			body = writeSegments(split(image))
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

// The table of functions as the linker writes it (runtime/symtab.go and
// runtime/runtime2.go of the toolchain, types pcHeader and _func).
const (
	tableMagic  = 0xfffffff1 // go1.20 and later
	tableHeader = 8 + 8*8

	// Of _func: where the tables of values by instruction start, how many
	// more follow the head, and how many references to data follow those.
	funcPCSP     = 16
	funcFile     = 20
	funcLine     = 24
	funcTables   = 28
	funcStart    = 36 // first line
	funcData     = 43
	funcHeadSize = 44

	inlinedTable = 2 // abi.PCDATA_InlTreeIndex
	inlinedData  = 3 // abi.FUNCDATA_InlTree
	noData       = 1<<32 - 1
)

var errOtherTable = errors.New("the table of functions is not as the linker writes it: was the toolchain changed?")

// dropLines takes lines and inlining out of the table of functions. The
// runtime knows functions without either: it prints "?" for their file.
func dropLines(image []byte) error {
	table, err := findTable(image)
	if err != nil {
		return err
	}
	word := func(at int) int { return int(binary.LittleEndian.Uint32(image[at:])) }
	long := func(n int) int { return int(binary.LittleEndian.Uint64(image[table+8+8*n:])) }
	count, values, functions := long(0), table+long(6), table+long(7)
	dropped, kept := map[int]bool{}, map[int]bool{} // offsets of tables of values, shared where they are alike
	for i := range count {
		f := functions + word(functions+8*i+4)
		if f+funcHeadSize > len(image) {
			return errOtherTable
		}
		data := f + funcHeadSize + 4*word(f+funcTables)
		if data+4*int(image[f+funcData]) > len(image) {
			return errOtherTable
		}
		dropped[word(f+funcFile)], dropped[word(f+funcLine)] = true, true
		kept[word(f+funcPCSP)] = true
		for n := range word(f + funcTables) {
			at := f + funcHeadSize + 4*n
			if n == inlinedTable {
				dropped[word(at)] = true
				clear(image[at : at+4])
			} else {
				kept[word(at)] = true
			}
		}
		if int(image[f+funcData]) > inlinedData {
			binary.LittleEndian.PutUint32(image[data+4*inlinedData:], noData)
		}
		clear(image[f+funcFile : f+funcFile+8])
		clear(image[f+funcStart : f+funcStart+4])
	}
	for offset := range dropped {
		if offset == 0 || kept[offset] {
			continue
		}
		start := values + offset
		end, ok := endOfValues(image[:functions], start)
		if !ok {
			return errOtherTable
		}
		clear(image[start:end])
	}
	return nil
}

// findTable finds the one table of functions.
func findTable(image []byte) (int, error) {
	found := -1
	head := binary.LittleEndian.AppendUint32(nil, tableMagic)
	head = append(head, 0, 0, 1, 8) // instructions of one byte, addresses of eight
	for from := 0; ; {
		at := bytes.Index(image[from:], head)
		if at < 0 {
			break
		}
		at += from
		from = at + 1
		if at+tableHeader > len(image) {
			continue
		}
		long := func(n int) uint64 { return binary.LittleEndian.Uint64(image[at+8+8*n:]) }
		room := uint64(len(image) - at)
		rising := long(0) > 0 && long(0) < room && long(3) == tableHeader
		for n := 3; n < 7; n++ {
			rising = rising && long(n) < long(n+1) && long(n+1) < room
		}
		if !rising {
			continue
		}
		if found >= 0 {
			return 0, errors.New("the program has two tables of functions")
		}
		found = at
	}
	if found < 0 {
		return 0, fmt.Errorf("the program has no table of functions with the mark %#x: was the toolchain changed?", tableMagic)
	}
	return found, nil
}

// endOfValues is where a table of values by instruction ends: pairs of
// variable-length numbers up to a difference of nought after the first.
func endOfValues(image []byte, at int) (int, bool) {
	for first := true; ; first = false {
		value, n := binary.Uvarint(image[min(at, len(image)):])
		if n <= 0 {
			return 0, false
		}
		at += n
		if value == 0 && !first {
			return at, true
		}
		if _, n = binary.Uvarint(image[at:]); n <= 0 {
			return 0, false
		}
		at += n
	}
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

package main

import (
	"bytes"
	"cmp"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"slices"
)

// reduce writes a PNG anew with a palette of the colours used most, every
// other pixel in the nearest of them: right for a drawing, not for a photo.
func reduce(picture []byte, colours int) ([]byte, error) {
	if colours < 2 || colours > 256 {
		return nil, fmt.Errorf("%d colours: a palette holds 2 to 256", colours)
	}
	full, err := png.Decode(bytes.NewReader(picture))
	if err != nil {
		return nil, err
	}
	box := full.Bounds()
	count := map[color.RGBA]int{}
	at := func(x, y int) color.RGBA { return color.RGBAModel.Convert(full.At(x, y)).(color.RGBA) }
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			count[at(x, y)]++
		}
	}
	used := make([]color.RGBA, 0, len(count))
	for c := range count {
		used = append(used, c)
	}
	slices.SortFunc(used, func(a, b color.RGBA) int {
		return cmp.Or(count[b]-count[a], cmp.Compare(rgb(a), rgb(b)))
	})
	var palette color.Palette
	for _, c := range used[:min(colours, len(used))] {
		palette = append(palette, c)
	}
	small := image.NewPaletted(box, palette)
	index := map[color.RGBA]uint8{}
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			c := at(x, y)
			i, known := index[c]
			if !known {
				i = uint8(palette.Index(c))
				index[c] = i
			}
			small.SetColorIndex(x, y, i)
		}
	}
	var out bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.BestCompression}
	err = encoder.Encode(&out, small)
	return out.Bytes(), err
}

func rgb(c color.RGBA) int { return int(c.R)<<16 | int(c.G)<<8 | int(c.B) }

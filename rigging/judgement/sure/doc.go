// Package sure says how sure a plan's numbers are: it draws what was measured or
// estimated again and again, each time as far off as it may well be, and works the
// plan out with every draw. The crew's own decisions, the tension planned and what
// limits the puller, stay as they are.
//
// Each draw is a plan like any other and is judged as such. What comes of them can
// only worsen the verdict.
package sure

//go:generate go run pullline/wasm/site/codec/generate

// Package text makes sentences. Package plan tells what it found as sayings: the
// key of a sentence and what goes into it, in no language. Here is the one table
// of sentences, and the voice that puts amounts, names and words of the trade
// into them.
//
// A sentence is whole: none is put together from parts of sentences, and each
// variant has a key of its own. The part of a key before its first dot is what
// is told of: a caution, a reason (why), a problem, what is accepted, an
// assumption, the name of a step, a letter of a formula, a source.
//
// In a sentence %s stands for an argument, %[2]s for the second one; {block} for
// a word of the trade as the reader's region has it, {Block} for the same with a
// capital. A percent sign before anything else is one.
//
// A second language is another table with the same keys: see Voice.Translate.
package text

// Package words holds the words of the trade by region, those of the
// verdicts, and what puts sentences together. The sentences of package plan
// are retold here in a region's words and the user's units.
package words

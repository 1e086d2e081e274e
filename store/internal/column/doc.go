// Package column holds the forms in which the vocabulary lies in a column of the
// database. Each type refuses what it does not know: a silent zero would be worse
// than an error.
package column

// Package sheet reads tables of sets that were kept elsewhere, and writes the log
// as such a table: text with a row for each set and the columns parted by commas,
// semicolons or tabs (RFC 4180, with what spreadsheets make of it).
//
// Reading has two steps. Open finds out which column is which and drops all others,
// so that nothing a person wrote beside the sets is kept. Read then makes sets out
// of the rows, with the choices that only the lifter can make: which number of a
// date is the day, in which unit the weights are, and whether lifts that are not
// known are taken. Fresh leaves out what the log has already.
package sheet

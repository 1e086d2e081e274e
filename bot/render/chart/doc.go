// Package chart draws the pictures of the bot: the estimate of a lift over time,
// a season's blocks, the club's board, a sheet of rows, and bodyweight against a
// class. Every picture is a PNG of 1200 x 675 pixels or taller, with letters large
// enough for a phone, on a light card of its own so that it reads the same in a
// light and in a dark chat. Nothing is told by colour alone: blocks carry their
// names, meets and points their own shapes. The same values give the same bytes.
package chart

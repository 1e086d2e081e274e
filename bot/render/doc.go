// Package render turns answers into messages: pure functions from values to
// words, fields and pictures. It reads no store, asks no clock and sends nothing.
package render

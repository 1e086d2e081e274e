package parse

// sameScale is the ratio up to which two numbers may be weights in the same unit; a
// pound and a kilogram are 2.2 apart.
const sameScale = 1.6

// sameUnit lets a unit that was said hold for the sets behind it, and for those
// before it of the same lift whose numbers are near: "140/5, 150/3, 160kg/1". Others
// keep the lifter's own.
func (r *reader) sameUnit(w *work) {
	if w.load.unit == "" {
		w.unit = r.unit
		return
	}
	r.unit, w.unit = w.load.unit, w.load.unit
	for i := len(r.items) - 1; i >= 0 && r.items[i].work != nil; i-- {
		before := r.items[i].work
		if near := w.load.value < sameScale*before.load.value && before.load.value < sameScale*w.load.value; near && before.unit == "" {
			before.unit = r.unit
		}
	}
}

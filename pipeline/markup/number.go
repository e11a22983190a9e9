package markup

import "strconv"

// appendTenths appends x rounded to a tenth: drawings are mostly numbers, and
// this is several times cheaper than the general way of strconv.
func appendTenths(b []byte, x float64) []byte {
	if x < 0 {
		x = -x
		if x >= 0.05 {
			b = append(b, '-')
		}
	}
	if !(x < 1e15) {
		return append(b, '0')
	}
	tenths := int64(x*10 + 0.5)
	b = strconv.AppendInt(b, tenths/10, 10)
	if r := tenths % 10; r != 0 {
		b = append(b, '.', byte('0'+r))
	}
	return b
}

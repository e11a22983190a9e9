package route

import "math"

// fits returns the lengths, none under zero, of straights that run along dirs
// which bring the end of a line nearest to miss from where it ends without
// them. Where several answers are equally near it is the one with the least
// sum of squares, so that straights side by side share evenly and a small
// change of the target is a small change of every length.
//
// The method is the active set of Lawson and Hanson, "Solving Least Squares
// Problems" (SIAM 1995) chapter 23 (from memory), with two changes: it starts with every
// straight in use, which is the answer in the usual case, and a straight that
// would not bring the end nearer is still taken into use when that shortens
// the others.
func fits(dirs []Vec, miss Vec) []float64 {
	n := len(dirs)
	length := make([]float64, n)
	want := make([]float64, n)
	used := make([]bool, n)
	for i := range used {
		used[i] = true
	}
	for round := 0; round < 8*n+8; round++ {
		price := leastNorm(dirs, used, miss, want)
		if i := firstNegative(used, want); i >= 0 {
			release(used, length, want)
			continue
		}
		for i, x := range want {
			length[i] = max(0, x)
		}
		next := entering(dirs, used, length, miss, price)
		if next < 0 {
			break
		}
		used[next] = true
	}
	return length
}

// small is what counts as no length, and as no gain in nearness, in metres:
// far below what can be cut, far above rounding.
const small = 1e-10

func firstNegative(used []bool, want []float64) int {
	for i, u := range used {
		if u && want[i] < -small {
			return i
		}
	}
	return -1
}

// release moves length as far towards want as no length goes under zero, and
// puts the straights that stop it out of use.
func release(used []bool, length, want []float64) {
	step := 1.0
	for i, u := range used {
		if u && want[i] < -small {
			step = min(step, length[i]/(length[i]-want[i]))
		}
	}
	for i, u := range used {
		if !u {
			continue
		}
		length[i] += step * (want[i] - length[i])
		if want[i] < -small && length[i] <= small {
			used[i], length[i] = false, 0
		}
	}
}

// entering returns the unused straight that would help most, or -1.
func entering(dirs []Vec, used []bool, length []float64, miss, price Vec) int {
	left := miss
	for i, d := range dirs {
		left = left.Sub(d.Scale(length[i]))
	}
	best, nearer, shorter := -1, small, small
	for i, d := range dirs {
		if used[i] {
			continue
		}
		gain := d.Dot(left)
		switch {
		case gain > nearer:
			best, nearer = i, gain
		case nearer == small && math.Abs(gain) <= small && d.Dot(price) > shorter:
			best, shorter = i, d.Dot(price)
		}
	}
	return best
}

// leastNorm sets want to the lengths of the used straights, of any sign, that
// bring the end nearest to miss, of those the ones with the least sum of
// squares. They are want_i = d_i · y, and y is returned: d · y over zero for an
// unused straight says that using it would make that sum smaller.
//
// y solves (Σ d dᵀ) y = miss in the space that the straights span.
func leastNorm(dirs []Vec, used []bool, miss Vec, want []float64) Vec {
	var m [3][3]float64
	for i, d := range dirs {
		if used[i] {
			outer(&m, d)
		}
	}
	y := spanOf(m).inverse(miss)
	for i, d := range dirs {
		want[i] = 0
		if used[i] {
			want[i] = d.Dot(y)
		}
	}
	return y
}

// eigen returns the eigenvalues and unit eigenvectors of the symmetric m, by
// Jacobi's rotations (Golub and Van Loan, "Matrix Computations", 4th edition, 8.5, from memory).
func eigen(m [3][3]float64) (values [3]float64, vectors [3]Vec) {
	v := [3][3]float64{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
	for sweep := 0; sweep < 12; sweep++ {
		for _, at := range [3][2]int{{0, 1}, {0, 2}, {1, 2}} {
			p, r := at[0], at[1]
			if math.Abs(m[p][r]) <= 1e-18*(m[p][p]+m[r][r]) {
				m[p][r], m[r][p] = 0, 0
				continue
			}
			tau := (m[r][r] - m[p][p]) / (2 * m[p][r])
			t := math.Copysign(1/(math.Abs(tau)+math.Sqrt(1+tau*tau)), tau)
			c := 1 / math.Sqrt(1+t*t)
			s := t * c
			for k := range m {
				m[k][p], m[k][r] = c*m[k][p]-s*m[k][r], s*m[k][p]+c*m[k][r]
			}
			for k := range m {
				m[p][k], m[r][k] = c*m[p][k]-s*m[r][k], s*m[p][k]+c*m[r][k]
			}
			for k := range v {
				v[k][p], v[k][r] = c*v[k][p]-s*v[k][r], s*v[k][p]+c*v[k][r]
			}
		}
		if m[0][1] == 0 && m[0][2] == 0 && m[1][2] == 0 {
			break
		}
	}
	for i := range values {
		values[i] = m[i][i]
		vectors[i] = Vec{v[0][i], v[1][i], v[2][i]}
	}
	return values, vectors
}

package load

import "math"

// meanOf is the mean of n numbers, n > 0, taken from the first of them, so that
// equal numbers have exactly themselves as their mean.
func meanOf(n int, at func(int) float64) float64 {
	first, sum := at(0), 0.0
	for i := 1; i < n; i++ {
		sum += at(i) - first
	}
	return first + sum/float64(n)
}

// sdOf is the standard deviation about a mean; equal numbers give exactly 0.
func sdOf(n, divisor int, mean float64, at func(int) float64) float64 {
	sum := 0.0
	for i := range n {
		d := at(i) - mean
		sum += d * d
	}
	return math.Sqrt(sum / float64(divisor))
}

// normal is the share of the standard normal distribution below z.
func normal(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }

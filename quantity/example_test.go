package quantity_test

import (
	"fmt"
	"math"

	"foilwright/quantity"
)

func ExampleParse() {
	mass, err := quantity.Parse("1180 kg ± 2 %", quantity.Mass)
	fmt.Println(mass, err)
	_, err = quantity.Parse("5.2", quantity.Angle)
	fmt.Println(err)
	// Output:
	// 1180 kg ± 23.6 kg <nil>
	// 5.2 has no unit
	// hint: write 5.2 deg or 0.09 rad
}

func ExampleParseRange() {
	cant, err := quantity.ParseRange("12 to 32 deg", quantity.Angle)
	fmt.Printf("%s: %.4f to %.4f rad, %v\n", cant, cant.Low, cant.High, err)
	// Output: 12 to 32 deg: 0.2094 to 0.5585 rad, <nil>
}

func ExampleParseList() {
	winds, err := quantity.ParseList("8 to 20 kn by 4", quantity.Speed)
	fmt.Println(winds, err)
	// Output: [8 kn 12 kn 16 kn 20 kn] <nil>
}

func ExampleQuantity_At() {
	draught, err := quantity.Parse("5.1 / 5.2 / 5.4 m", quantity.Length)
	fmt.Printf("%.3f %.3f %.3f %v\n", draught.At(0.1), draught.At(0.5), draught.At(0.9), err)
	// Output: 5.155 5.227 5.323 <nil>
}

func ExampleCut() {
	factor, err := quantity.Parse("1.00 ± 0.50", quantity.Number)
	if err != nil {
		fmt.Println(err)
		return
	}
	factor, err = quantity.Cut(factor, 0, math.Inf(1))
	fmt.Println(factor, err)
	// Output: 1 ± 0.5 within 0 to 3 <nil>
}

func ExampleFormatSpread() {
	fmt.Println(quantity.FormatSpread(16.2784, 0.21, quantity.Speed, "kn"))
	fmt.Println(quantity.FormatSpread(31.6423, 0.4, quantity.Number, ""))
	// Output:
	// 31.6 ± 0.4 kn
	// 31.6 ± 0.4
}

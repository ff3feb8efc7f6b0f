package growth

import (
	"math"

	"wardian/content/measure"
)

// Shape is the shape of a leaf's blade.
type Shape string

// The shapes with a factor of their own.
const (
	Elliptic   Shape = "elliptic"
	Ovate      Shape = "ovate"
	Obovate    Shape = "obovate"
	Orbicular  Shape = "orbicular"
	Triangular Shape = "triangular"
	Rhombic    Shape = "rhombic"
	Cordate    Shape = "cordate"
)

// Measured says which length of a leaf was measured.
type Measured string

// The lengths that people measure. On a heart-shaped blade they differ by an
// eighth, and mixing them is an error of 12 %.
const (
	Whole      Measured = "whole"        // from the end of the lobes to the tip
	SinusToTip Measured = "sinus to tip" // from the notch between the lobes to the tip
)

// Factor is a leaf's shape factor k: area = k · length · width.
type Factor struct {
	K       float64
	General bool // not of this leaf's shape: marked wherever its areas are shown
}

// GeneralFactor is taken where neither factor nor shape is known. Published
// factors of simple leaves lie between 1/2 (a triangle) and π/4 (an ellipse) in
// more than 11 800 leaves of six plant classes (Shi et al. 2019, Trees
// 33:1073–1085, abstract read); 0.69 is the middle of a two-arc lens of 45°.
var GeneralFactor = Factor{K: 0.69, General: true}

// Cordate blades are taken as a cardioid r = a(1 + cos θ): area 3πa²/2, greatest
// width 2·a·(3√3/4), whole length 9a/4, from the notch to the tip 2a. The factors
// are 0.806133 and 0.906900.
var (
	cordateWhole = (3 * math.Pi / 2) / (9.0 / 4 * 3 * math.Sqrt(3) / 2)
	cordateSinus = (3 * math.Pi / 2) / (2 * 3 * math.Sqrt(3) / 2)
)

// FactorFor is the factor of a shape, from its geometry: π/4 for an ellipse and
// for two half ellipses (elliptic, ovate, obovate, orbicular), 1/2 for a triangle
// or rhombus, 0.806133 for a cardioid, 0.906900 where its length is measured from
// the notch. Any other shape, and any other shape's length from the notch, has
// the general factor.
func FactorFor(shape Shape, length Measured) Factor {
	if length == SinusToTip && shape != Cordate {
		return GeneralFactor
	}
	switch shape {
	case Elliptic, Ovate, Obovate, Orbicular:
		return Factor{K: math.Pi / 4}
	case Triangular, Rhombic:
		return Factor{K: 0.5}
	case Cordate:
		if length == SinusToTip {
			return Factor{K: cordateSinus}
		}
		return Factor{K: cordateWhole}
	}
	return GeneralFactor
}

// Own is a factor that the grower gives, measured on a traced leaf.
func Own(k float64) Factor { return Factor{K: k} }

// Leaf is the area of one leaf, in cm².
func (f Factor) Leaf(s measure.Size) measure.Area {
	return measure.Area(f.K * float64(s.Length) * float64(s.Width))
}

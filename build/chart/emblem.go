package chart

// Emblem is the leaf lying on the soil line: the line is its midrib, the upper
// half is blade, in the lower half only the veins go on, as roots. Drawn for
// 96 × 60, at any size; the line lies at half its height. Hidden from screen
// readers.
func Emblem() HTML {
	return `<svg class="ch emblem" viewBox="0 0 96 60" aria-hidden="true"><path class="blade" d="M2 30C10 4 42 0 70 20C76 25 83 28.5 94 30Z"/>` +
		`<path class="veins" d="M9 29Q11.1 18.8 15 14.8M20 29Q23.1 15.8 29 9.9M32 29Q35.9 16 43 10.2M45 29Q48.9 18.3 56 13.9M58 29Q61.5 22.5 68 20.7"/>` +
		`<path class="rootlets" d="M2 30Q3.5 36.1 7.6 41.4M9 30Q10.8 40.4 14.1 50.5M15 30Q17.1 42.3 23.1 50.9M21 30Q23.4 43.4 29.2 54.9M27 30Q29.7 43.6 35.3 52.1M33 30Q36 43.2 43.9 55.4M39 30Q42.3 41.9 49 50.9M46 30Q49.3 40.4 57.4 49.6M52 30Q55.3 38.5 64.2 43.9M59 30Q62.3 36 69.7 43M67 30Q70 33.2 77.8 36.9M75 30Q77.7 31.4 83.4 32.9"/></svg>`
}

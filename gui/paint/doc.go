// Package paint is one small drawing surface with three back-ends: an image
// for the window, PNG and film; SVG and PDF for figures and papers; and a
// recorder for tests. Pictures are written once against Surface.
//
// Notation
//
//	x, y      device pixels, x to the right, y downwards; (0,0) is the corner
//	          of the first pixel, so that a 1 px line through its middle has
//	          coordinates ending in .5
//	size      of text: pixels per em; y of a text is its baseline
//	colours   color.NRGBA (not premultiplied); images are *image.RGBA
//	          (premultiplied)
//	fill      non-zero winding
//
// A surface keeps nothing that it is handed: paths may be reused at once.
// Surfaces are not safe for concurrent use; fonts are.
package paint

// Package photo makes the pictures of a site out of the photos as they come from a phone:
// turned the way they were held, in the few widths the pages use, as WebP with one JPEG
// to fall back on, and without a byte of what the phone wrote into them. Each original is
// worked once; what came out is kept by content.
//
// It may not know units, pages or findings: it is given files and what internal/media
// tells of them, and returns files. A picture is decoded only after its head has said
// how large it is.
package photo

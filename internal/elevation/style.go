package elevation

// CSS is the part of the theme's stylesheet for the drawings. They are legible without it:
// every color is the color of the text, and paper is white. With it, paper has the color of
// the page, also with forced colors. --paper comes from the theme; Canvas is a CSS color.
const CSS = `
.el { display: block; width: 100%; height: auto; color: var(--ink, CanvasText); }
.el-paper { fill: var(--paper, Canvas); }
.el-wheel, .el-slit { stroke: var(--paper, Canvas); }
.el-dim-text { font-variant-numeric: tabular-nums; }
@media (min-width: 36em) { .el-dim-text { font-size: 27px; } }
@media (min-width: 60em) { .el-dim-text { font-size: 20px; } }
@media (forced-colors: active) {
	.el { color: CanvasText; }
	.el-paper { fill: Canvas; }
	.el-wheel, .el-slit { stroke: Canvas; }
}
`

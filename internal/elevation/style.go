package elevation

// CSS is what the theme's stylesheet says about the drawings. They are legible without
// it: every color is the text's own, and paper is white. With it, paper is the page's
// paper, also under forced colors. --paper is the theme's; Canvas is CSS's own color.
const CSS = `
.el { display: block; width: 100%; height: auto; color: var(--ink, CanvasText); }
.el-paper { fill: var(--paper, Canvas); }
.el-wheel, .el-slit { stroke: var(--paper, Canvas); }
.el-dim-text { font-variant-numeric: tabular-nums; }
@media (forced-colors: active) {
	.el { color: CanvasText; }
	.el-paper { fill: Canvas; }
	.el-wheel, .el-slit { stroke: Canvas; }
}
`

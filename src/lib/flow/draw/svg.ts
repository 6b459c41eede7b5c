import { drawingWords, drawWay, linesIn, type WayBox } from './layout.ts';
import type { Way } from './way.ts';

/** The drawing as a file of its own: no script, no font, no address outside. */

const MARKS: Readonly<Record<string, string>> = {
	'&': '&amp;',
	'<': '&lt;',
	'>': '&gt;',
	'"': '&quot;',
	"'": '&#39;'
};
const escape = (text: string) => text.replace(/[&<>"']/g, (mark) => MARKS[mark] ?? mark);

/** Ink on paper, and the other way round where the reader's screen is dark. */
const LOOK = `svg{background:#f6f1e6;font:13px sans-serif}text{fill:#1c1916}.title{font-weight:600}.answer{font-style:italic}
path{fill:none;stroke:#837b70}rect{fill:#fffaf0;stroke:#1c1916;stroke-width:1.5}.repair rect{stroke-width:4}.off rect{stroke-dasharray:5 4}
@media(prefers-color-scheme:dark){svg{background:#171410}text{fill:#eee7da}rect{fill:#211d18;stroke:#eee7da}}`;

const boxText = (box: WayBox) =>
	linesIn(box)
		.map(({ text, kind, x, y }) => `<text class="${kind}" x="${x}" y="${y}">${escape(text)}</text>`)
		.join('');

const boxMark = (box: WayBox) =>
	`<g class="${['left off', 'outside'].includes(box.kind) ? 'off' : box.kind}"><rect x="${box.x}" y="${box.y}" width="${box.width}" height="${box.height}" rx="${box.kind === 'step' ? 8 : 0}"/>${boxText(box)}</g>`;

export function svgOf(way: Way): string {
	const { width, height, boxes, lines } = drawWay(way);
	return [
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img">`,
		`<title>${escape(`${way.title}: ${way.plan}`)}</title><desc>${escape(drawingWords(way))}</desc><style>${LOOK}</style>`,
		...lines.map(({ path, width }) => `<path d="${path}" stroke-width="${width.toFixed(1)}"/>`),
		...boxes.map(boxMark),
		'</svg>',
		''
	].join('\n');
}

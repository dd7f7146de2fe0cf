/** A page as SVG text, for the screen and for whoever wants to draw on. */
import type { Operation, Point } from "./drawing.ts";
import type { Page } from "./page.ts";

/** A standalone SVG document in mm; stitches carry their chart, row and column as data attributes. */
export function svgOfPage(page: Page): string {
  const size = `width="${page.widthMm}mm" height="${page.heightMm}mm" viewBox="0 0 ${page.widthMm} ${page.heightMm}"`;
  const body = page.operations.map(element).join("\n");
  return `<svg xmlns="http://www.w3.org/2000/svg" ${size} font-family="'Noto Sans', sans-serif">
<title>${escapeText(page.label)}</title>
<rect width="${page.widthMm}" height="${page.heightMm}" fill="#ffffff"/>
${body}
</svg>
`;
}

function element(operation: Operation): string {
  switch (operation.kind) {
    case "rect": {
      const { x, y, width, height, stitch } = operation;
      const mark = stitch
        ? ` data-chart="${escapeText(stitch.chart)}" data-row="${stitch.row}" data-column="${stitch.column}"`
        : "";
      return `<rect x="${mm(x)}" y="${mm(y)}" width="${mm(width)}" height="${mm(height)}"${paint(operation)}${mark}/>`;
    }
    case "line": {
      const { from, to, stroke, lineWidth, dash } = operation;
      const dashes = dash ? ` stroke-dasharray="${dash.map(mm).join(" ")}"` : "";
      return `<line x1="${mm(from[0])}" y1="${mm(from[1])}" x2="${mm(to[0])}" y2="${mm(to[1])}" stroke="${stroke}" stroke-width="${mm(lineWidth)}"${dashes}/>`;
    }
    case "polygon":
      return `<polygon points="${operation.points.map(point).join(" ")}"${paint(operation)}/>`;
    case "text": {
      const { at, text, size, weight, anchor, fill } = operation;
      const bold = weight === "bold" ? ' font-weight="700"' : "";
      const anchored = anchor && anchor !== "start" ? ` text-anchor="${anchor}"` : "";
      const filled = fill ? ` fill="${fill}"` : "";
      return `<text x="${mm(at[0])}" y="${mm(at[1])}" font-size="${mm(size)}"${bold}${anchored}${filled}>${escapeText(text)}</text>`;
    }
  }
}

function paint({ fill, stroke, lineWidth }: { fill?: string; stroke?: string; lineWidth?: number }): string {
  const line = stroke ? ` stroke="${stroke}" stroke-width="${mm(lineWidth ?? 0.1)}"` : "";
  return ` fill="${fill ?? "none"}"${line}`;
}

/** Thousandths of a mm are finer than any printer. */
const mm = (value: number): string => String(Math.round(value * 1000) / 1000);
const point = ([x, y]: Point): string => `${mm(x)},${mm(y)}`;

/** Text as XML may hold it: markup escaped, characters that XML 1.0 forbids replaced. */
export function escapeText(text: string): string {
  const legal = [...text].map((character) => (forbidden(character.codePointAt(0)!) ? "?" : character)).join("");
  return legal
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    .replaceAll("'", "&#39;");
}

/** Source: XML 1.0, production 2 (Char). */
function forbidden(code: number): boolean {
  if (code < 0x20) return code !== 0x9 && code !== 0xa && code !== 0xd;
  return (code >= 0xd800 && code <= 0xdfff) || code === 0xfffe || code === 0xffff;
}

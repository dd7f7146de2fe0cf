/** What is drawn on a page of a PDF, from the list of operators that the PDF library makes of it. */
import type { Point } from "./chartGrid.ts";
import { clipped, clipOf, type Clip } from "./page/clip.ts";
import { composed, moved, scaleOf, type Affine } from "./page/affine.ts";
import { Fillings, meanOfStops, meanOfTile } from "./page/fillings.ts";
import { pathOfBuffer } from "./page/pdfPath.ts";
import { pixelsOfImage, SMALL_PIXELS, type PdfImage } from "./page/pdfPicture.ts";
import { lettersOf, startText, textOperators, type PdfFont, type TextState } from "./page/pdfText.ts";
import type { PageGlyph, PagePicture, PagePrimitives, PageShape } from "./pagePrimitives.ts";

/** As pdfjs' `getOperatorList` gives them. */
export interface PdfOperatorList {
  readonly fnArray: ArrayLike<number>;
  readonly argsArray: ArrayLike<unknown>;
}

/** What the page needs beside its operators. */
export interface PdfPageParts {
  /** pdfjs' table `OPS`: name → number. */
  readonly operators: Readonly<Record<string, number>>;
  /** Points, as the page is looked at; the transform takes the page's own units there. */
  readonly viewport: { readonly width: number; readonly height: number; readonly transform: readonly number[] };
  /** By the name that `setFont` uses; null where it is not known. */
  readonly fontOf: (name: string) => PdfFont | null;
  /** A run of colours by its name, as the library keeps one; null where it is not known. */
  readonly shadingOf?: (name: string) => unknown;
  /** Whether a layer is shown; all are where it is left out. */
  readonly isShown?: (group: unknown) => boolean;
}

/** Never throws: an operator that makes no sense draws nothing. */
export function pageOfOperators(list: PdfOperatorList, parts: PdfPageParts): PagePrimitives {
  const painter = new Painter(parts);
  painter.runAll(list);
  const { width, height } = parts.viewport;
  const { shapes, glyphs, pictures, untold } = painter;
  return { width, height, shapes, glyphs, pictures, ...(untold.length === 0 ? {} : { untold }) };
}

interface State extends TextState {
  readonly at: Affine;
  /** Null where nothing fills, or what is not told. */
  readonly fill: string | null;
  readonly fillsUntold: boolean;
  /** What is painted is let through by a mask that is not told. */
  readonly masked: boolean;
  readonly stroke: string | null;
  readonly fillOpacity: number;
  readonly strokeOpacity: number;
  readonly lineWidth: number;
  readonly dashed: boolean;
  /** Null where all of the page may be painted. */
  readonly clip: Clip | null;
}

/** Goes through the operators as a printer would, and notes what would be painted. */
class Painter {
  readonly shapes: PageShape[] = [];
  readonly glyphs: PageGlyph[] = [];
  readonly pictures: PagePicture[] = [];
  readonly untold: (readonly Point[])[] = [];
  private readonly parts: PdfPageParts;
  private readonly kept: State[] = [];
  private state: State;
  private clipNext = false;
  /** What is not shown: groups that only mask others, and layers that are off; how many of them are open, and of each that is open whether it is shown. */
  private hidden = 0;
  private readonly layers: boolean[] = [];
  private readonly groups: boolean[] = [];

  private readonly fillings = new Fillings();
  /** Hatchings within hatchings. */
  private within = 0;
  private readonly names: string[] = [];

  constructor(parts: PdfPageParts) {
    this.parts = parts;
    for (const [name, number] of Object.entries(parts.operators)) this.names[number] = name;
    const at = affine(parts.viewport.transform);
    this.state = { ...startText(), at: at ?? [1, 0, 0, 1, 0, 0], ...BLACK_INK, clip: null };
  }

  runAll(list: PdfOperatorList): void {
    for (let index = 0; index < list.fnArray.length; index++) {
      const given = list.argsArray[index];
      this.run(this.names[list.fnArray[index]!] ?? "", Array.isArray(given) ? given : []);
    }
  }

  private run(name: string, args: readonly unknown[]): void {
    const text = textOperators[name]?.(this.state, args, this.parts.fontOf);
    if (text) {
      this.change(text);
      return;
    }
    switch (name) {
      case "save":
        if (this.kept.length < DEEPEST) this.kept.push(this.state);
        return;
      case "restore":
        this.state = this.kept.pop() ?? this.state;
        return;
      case "transform":
        this.transform(args);
        return;
      case "setLineWidth":
        this.change({ lineWidth: number(args[0]) });
        return;
      case "setDash":
        this.change({ dashed: Array.isArray(args[0]) && args[0].some((part) => number(part) > 0) });
        return;
      case "setGState":
        this.setGraphics(args[0]);
        return;
      case "setFillRGBColor":
        this.change({ fill: hex(args[0]), fillsUntold: false });
        return;
      case "setStrokeRGBColor":
        this.change({ stroke: hex(args[0]) });
        return;
      case "setFillTransparent":
        this.change({ fill: null, fillsUntold: false });
        return;
      case "setFillColorN": {
        const fill = this.patternColour(args);
        this.change({ fill, fillsUntold: fill === null });
        return;
      }
      case "shadingFill":
        this.shade(args[0]);
        return;
      case "setStrokeTransparent":
      case "setStrokeColorN":
        this.change({ stroke: null });
        return;
      case "clip":
      case "eoClip":
        this.clipNext = true;
        return;
      case "constructPath":
        this.path(args);
        return;
      case "showText":
        this.showText(args[0]);
        return;
      case "paintFormXObjectBegin":
        this.kept.push(this.state);
        if (args[0]) this.transform(Array.from(args[0] as ArrayLike<unknown>));
        if (args[1]) this.clipTo([corners(args[1] as ArrayLike<unknown>)]);
        return;
      case "paintFormXObjectEnd":
        this.state = this.kept.pop() ?? this.state;
        return;
      case "beginGroup":
        this.beginGroup(args[0]);
        return;
      case "endGroup":
        this.state = this.kept.pop() ?? this.state;
        this.close(this.groups);
        return;
      case "beginMarkedContent":
        this.layers.push(true);
        return;
      case "beginMarkedContentProps":
        this.open(this.layers, args[0] !== "OC" || (this.parts.isShown?.(args[1]) ?? true));
        return;
      case "endMarkedContent":
        this.close(this.layers);
        return;
      case "paintImageXObject":
        this.picture(typeof args[0] === "string" ? args[0] : undefined);
        return;
      case "paintInlineImageXObject":
        this.picture(undefined, args[0] as PdfImage | undefined);
        return;
      case "paintImageMaskXObject":
        this.picture((args[0] as { data?: unknown })?.data as string | undefined);
        return;
      case "paintSolidColorImageMask":
        this.addShape([UNIT_SQUARE], { paints: "fill", evenOdd: false });
    }
  }

  private change(some: Partial<State>): void {
    this.state = { ...this.state, ...some };
  }

  private get isShown(): boolean {
    return this.hidden === 0;
  }

  private open(nest: boolean[], shown: boolean): void {
    nest.push(shown);
    if (!shown) this.hidden++;
  }

  private close(nest: boolean[]): void {
    if (nest.pop() === false) this.hidden--;
  }

  private transform(args: readonly unknown[]): void {
    const inner = affine(args);
    if (inner) this.change({ at: composed(this.state.at, inner) });
  }

  /** Its content comes next, begun by a form of its own; one that only masks is not seen. */
  private beginGroup(given: unknown): void {
    this.kept.push(this.state);
    this.open(this.groups, !(given as { smask?: unknown } | undefined)?.smask);
  }

  /** As a hatching or a run of colours looks from afar; null where it is none that is known. */
  private patternColour(args: readonly unknown[]): string | null {
    if (args[0] === "Shading") return this.shadingColour(args[1]);
    const [name, colour, list, , box, stepX, stepY] = args as [unknown, unknown, PdfOperatorList | undefined, ...unknown[]]; // prettier-ignore
    if (name !== "TilingPattern" || !list || this.within > 0) return null;
    const [left, low, right, high] = Array.from((box ?? []) as ArrayLike<unknown>, number) as [number, number, number, number]; // prettier-ignore
    const area = Math.min(right - left, Math.abs(number(stepX))) * Math.min(high - low, Math.abs(number(stepY)));
    const own = hex(colour) ?? "#000000";
    const key = `tile ${own} ${box} ${stepX} ${stepY} ${JSON.stringify([list.fnArray, list.argsArray]).slice(0, LONGEST_KEY)}`;
    return this.fillings.hexFor(key, () => {
      const tile = new Painter({ ...this.parts, viewport: { width: 1, height: 1, transform: [1, 0, 0, 1, 0, 0] } });
      tile.within = 1;
      tile.change({ fill: own, stroke: own });
      tile.runAll(list);
      return tile.pictures.length > 0 || tile.untold.length > 0 ? null : meanOfTile(tile.shapes, area);
    });
  }

  private shadingColour(name: unknown): string | null {
    const shading = typeof name === "string" ? this.parts.shadingOf?.(name) : null;
    const stops = Array.isArray(shading) && shading[0] === "RadialAxial" && Array.isArray(shading[3]) ? shading[3] : [];
    const known = (stops as unknown[]).filter((stop): stop is [number, string] => Array.isArray(stop) && typeof stop[0] === "number" && typeof stop[1] === "string"); // prettier-ignore
    return this.fillings.hexFor(`run ${JSON.stringify(known).slice(0, LONGEST_KEY)}`, () => meanOfStops(known));
  }

  /** Paints all that may be painted. */
  private shade(name: unknown): void {
    const { clip, fillOpacity } = this.state;
    const fill = this.shadingColour(name);
    if (!this.isShown || clip === null || fillOpacity <= UNSEEN) return;
    for (const run of clip.outlines) {
      if (fill === null) this.untold.push(run);
      else this.shapes.push({ outline: [[...run, run[0]!]], fill, stroke: null, lineWidth: 0 });
    }
  }

  private setGraphics(given: unknown): void {
    if (!Array.isArray(given)) return;
    for (const [key, value] of given as [string, unknown][]) {
      if (key === "LW") this.change({ lineWidth: number(value) });
      if (key === "SMask") this.change({ masked: value !== false && value !== null });
      if (key === "ca") this.change({ fillOpacity: number(value) });
      if (key === "CA") this.change({ strokeOpacity: number(value) });
      if (key === "D") this.change({ dashed: Array.isArray(value) && ((value[0] as unknown[])?.length ?? 0) > 0 });
      if (key === "Font" && Array.isArray(value)) {
        this.change(textOperators.setFont!(this.state, value, this.parts.fontOf) ?? {});
      }
    }
  }

  private path(args: readonly unknown[]): void {
    const buffer = (args[1] as unknown[] | null)?.[0];
    const outline = buffer instanceof Float32Array ? pathOfBuffer(buffer) : [];
    const { operators } = this.parts;
    const paint = PAINTS.find(({ name }) => operators[name] === args[0]);
    if (paint && outline.length > 0) this.addShape(outline, paint);
    if (this.clipNext) this.clipTo(outline);
    this.clipNext = false;
  }

  private clipTo(outline: readonly (readonly Point[])[]): void {
    const { at, clip } = this.state;
    this.change({
      clip: clipOf(
        outline.map((run) => run.map((point) => moved(at, point))),
        clip,
      ),
    });
  }

  private addShape(outline: readonly (readonly Point[])[], { paints, evenOdd }: Omit<Paint, "name">): void {
    const { at, clip, fill, stroke, fillOpacity, strokeOpacity, lineWidth, dashed } = this.state;
    if (!this.isShown) return;
    const fills = paints !== "stroke" && fill !== null && fillOpacity > 0;
    const strokes = paints !== "fill" && stroke !== null && strokeOpacity > UNSEEN;
    const placed = outline.map((run) => run.map((point) => moved(at, point)));
    if (!placed.every((run) => run.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y)))) return;
    if (this.state.masked || (paints !== "stroke" && this.state.fillsUntold && fillOpacity > UNSEEN))
      this.untold.push(...(clip === null ? placed : clipped(placed, clip, { closed: true })));
    // A line of no width is as thin as a printer can; a fill and a stroke are cut differently by what hides them.
    const width = Math.max(THINNEST, lineWidth * scaleOf(at));
    const line = { lineWidth: strokes ? width : 0, ...(dashed && strokes ? { dashed: true as const } : {}) };
    const see = {
      ...(evenOdd ? { evenOdd: true as const } : {}),
      ...(fills && fillOpacity < 1 ? { opacity: fillOpacity } : {}),
    };
    if (clip === null) {
      if (fills || strokes)
        this.shapes.push({
          outline: placed,
          fill: fills ? fill : null,
          stroke: strokes ? stroke : null,
          ...line,
          ...see,
        });
      return;
    }
    if (fills) {
      const left = clipped(placed, clip, { closed: true });
      if (left.length > 0) this.shapes.push({ outline: left, fill, stroke: null, lineWidth: 0, ...see });
    }
    if (strokes) {
      const left = clipped(placed, clip, { closed: false });
      if (left.length > 0) this.shapes.push({ outline: left, fill: null, stroke, ...line });
    }
  }

  private showText(given: unknown): void {
    if (!Array.isArray(given)) return;
    const { letters, after } = lettersOf(given, this.state, this.state.at);
    this.change(after);
    const { fill, stroke, clip, fillOpacity, renders } = this.state;
    const colour = renders === "stroke" ? stroke : renders === "fill" ? fill : null;
    if (!this.isShown || fillOpacity <= UNSEEN) return;
    if (colour === null && renders !== "fill") return;
    for (const letter of letters) {
      const { x, y, size, width } = letter;
      if (![x, y, size, width].every(Number.isFinite) || (clip !== null && !clip.holds([x + width / 2, y - size / 3])))
        continue;
      this.glyphs.push({ ...letter, colour: colour ?? "#000000" });
    }
  }

  private picture(id: string | undefined, own?: PdfImage): void {
    if (!this.isShown) return;
    const { at, clip } = this.state;
    // A picture fills the unit square, its top row at y = 1.
    const placed = UNIT_SQUARE.map(([x, y]) => moved(at, [x, 1 - y])) as [Point, Point, Point, Point];
    if (!placed.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y))) return;
    if (clip !== null && clipped([placed], clip, { closed: true }).length === 0) return;
    const pixels = own && own.width * own.height <= SMALL_PIXELS ? pixelsOfImage(own) : null;
    this.pictures.push({ corners: placed, pixels, ...(typeof id === "string" ? { id } : {}) });
  }
}

interface Paint {
  readonly name: string;
  readonly paints: "fill" | "stroke" | "both";
  readonly evenOdd: boolean;
}

/** Source: ISO 32000-1, table 60. */
const PAINTS: readonly Paint[] = [
  { name: "fill", paints: "fill", evenOdd: false },
  { name: "eoFill", paints: "fill", evenOdd: true },
  { name: "stroke", paints: "stroke", evenOdd: false },
  { name: "closeStroke", paints: "stroke", evenOdd: false },
  { name: "fillStroke", paints: "both", evenOdd: false },
  { name: "eoFillStroke", paints: "both", evenOdd: true },
  { name: "closeFillStroke", paints: "both", evenOdd: false },
  { name: "closeEOFillStroke", paints: "both", evenOdd: true },
];

/** Source: ISO 32000-1, table 52 (the graphics state at a page's beginning). */
const BLACK_INK = {
  fill: "#000000",
  fillsUntold: false,
  masked: false,
  stroke: "#000000",
  fillOpacity: 1,
  strokeOpacity: 1,
  lineWidth: 1,
  dashed: false,
};
const UNIT_SQUARE: readonly Point[] = [[0, 0], [1, 0], [1, 1], [0, 1]]; // prettier-ignore
/** States kept at once; a page of an honest program keeps some tens. */
const DEEPEST = 10_000;
/** Points; what printers draw for a line of width 0. */
const THINNEST = 0.1;
/** Characters of a hatching's orders by which it is told from others. */
const LONGEST_KEY = 4000;
/** Ink that hides less of what lies below is not seen. */
const UNSEEN = 0.02;

const number = (value: unknown): number => (typeof value === "number" && Number.isFinite(value) ? value : 0);
const hex = (value: unknown): string | null =>
  typeof value === "string" && /^#[0-9a-f]{6}$/i.test(value) ? value.toLowerCase() : null;

function affine(values: readonly unknown[]): Affine | null {
  const six = values.slice(0, 6);
  return six.length === 6 && six.every((value) => typeof value === "number" && Number.isFinite(value))
    ? (six as unknown as Affine)
    : null;
}

function corners(box: ArrayLike<unknown>): Point[] {
  const [left, low, right, high] = Array.from(box, number) as [number, number, number, number];
  return [[left, low], [right, low], [right, high], [left, high]]; // prettier-ignore
}

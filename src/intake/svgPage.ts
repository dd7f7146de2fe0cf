/** What is drawn in an SVG file: read as data alone, nothing in it run, nothing fetched for it. */
import type { Outcome, Problem } from "../base/problem.ts";
import type { Point } from "./chartGrid.ts";
import { composed, curve, IDENTITY, moved, scaleOf, type Affine } from "./page/affine.ts";
import { clipOf, clipped, type Clip } from "./page/clip.ts";
import { Fillings, meanOfStops, meanOfTile } from "./page/fillings.ts";
import type { PageGlyph, PagePicture, PagePrimitives, PageShape } from "./pagePrimitives.ts";
import { cssColour, opacityOf } from "./svg/colour.ts";
import { fitted, lengthOf, transformOf, viewBoxOf } from "./svg/lengths.ts";
import { pathOfData } from "./svg/path.ts";
import { rulesOf, styleOf, type Style } from "./svg/style.ts";
import { glyphsOfText } from "./svg/text.ts";
import { fault, treeOfSvg, type SvgElement } from "./svg/tree.ts";

/** No value, and a sentence, for what is damaged, too large, or built to swell. What asks to be run or fetched is left out and told. */
export function pageOfSvg(text: string): Outcome<PagePrimitives> {
  const { value: root, problems } = treeOfSvg(text);
  if (!root) return { value: null, problems };
  const view = viewBoxOf(root.attributes.viewBox);
  const width = lengthOf(root.attributes.width, view?.width ?? FULL.width, view?.width ?? FULL.width);
  const height = lengthOf(root.attributes.height, view?.height ?? FULL.height, view?.height ?? FULL.height);
  if (!(width > 0 && height > 0 && width <= LONGEST && height <= LONGEST))
    return {
      value: null,
      problems: [
        fault(`a size of up to ${LONGEST} pixels a side`, `${root.attributes.width} × ${root.attributes.height}`),
      ],
    };
  const drawing = new Drawing(root);
  const toPoints: Affine = [POINTS, 0, 0, POINTS, 0, 0];
  const at = view ? composed(toPoints, fitted(view, width, height, root.attributes.preserveAspectRatio)) : toPoints;
  drawing.children(root, {
    at,
    style: styleOf(root, {}, drawing.rules),
    opacity: 1,
    clip: null,
    depth: 0,
    size: view ?? { width, height },
  });
  if (drawing.left < 0)
    return {
      value: null,
      problems: [
        fault(
          "a drawing of at most some million points",
          "one that swells to more as its parts are used over and over",
        ),
      ],
    };
  const page = {
    width: width * POINTS,
    height: height * POINTS,
    shapes: drawing.shapes,
    glyphs: drawing.glyphs,
    pictures: drawing.pictures,
    ...(drawing.untold.length === 0 ? {} : { untold: drawing.untold }),
  };
  return { value: page, problems: drawing.unheeded.size === 0 ? [] : [note([...drawing.unheeded])] };
}

const note = (names: readonly string[]): Problem => ({
  where: "the drawing",
  expected: "shapes and words",
  got: `${names.join(", ")} as well, which was neither run nor fetched`,
  severity: "note",
});

interface Place {
  readonly at: Affine;
  readonly style: Style;
  readonly opacity: number;
  readonly clip: Clip | null;
  /** Uses within uses. */
  readonly depth: number;
  /** What percentages are of. */
  readonly size: { readonly width: number; readonly height: number };
}

class Drawing {
  readonly shapes: PageShape[] = [];
  readonly glyphs: PageGlyph[] = [];
  readonly pictures: PagePicture[] = [];
  readonly untold: (readonly Point[])[] = [];
  readonly rules: ReturnType<typeof rulesOf>;
  /** What asked to be run or fetched. */
  readonly unheeded = new Set<string>();
  /** Points and elements that may still be made. */
  left = MOST_POINTS;
  private readonly byId = new Map<string, SvgElement>();
  private readonly fillings = new Fillings();
  private isTile = false;

  constructor(root: SvgElement) {
    this.rules = rulesOf(root);
    const visit = (element: SvgElement): void => {
      const { id } = element.attributes;
      if (id !== undefined && !this.byId.has(id)) this.byId.set(id, element);
      if (RUN.has(element.name) || Object.keys(element.attributes).some((name) => /^on[a-z]/.test(name)))
        this.unheeded.add("a script");
      for (const child of element.children) if (typeof child !== "string") visit(child);
    };
    visit(root);
  }

  children(element: SvgElement, place: Place): void {
    for (const child of element.children) if (typeof child !== "string") this.draw(child, place);
  }

  private draw(element: SvgElement, outer: Place): void {
    this.left -= POINTS_PER_ELEMENT;
    if (UNSEEN.has(element.name) || this.left < 0) return;
    const style = styleOf(element, outer.style, this.rules);
    if (style.display === "none") return;
    const opacity = outer.opacity * opacityOf(style.opacity);
    const at = composed(outer.at, transformOf(style.transform ?? element.attributes.transform));
    const place: Place = { ...outer, at, style, opacity, clip: this.clipAt(style["clip-path"], at, outer) };
    switch (element.name) {
      case "g":
      case "a":
      case "switch":
        this.children(element, place);
        return;
      case "svg":
        this.nested(element, place, place.size);
        return;
      case "use":
        this.use(element, place);
        return;
      case "text":
        this.glyphs.push(...this.counted(glyphsOfText(element, outer.style, this.rules, at)));
        return;
      case "image":
        this.picture(element, place);
        return;
      default: {
        const outline = outlineOf(element, place.size);
        if (outline && outline.length > 0) this.shape(outline, place);
      }
    }
  }

  private nested(element: SvgElement, place: Place, size: Place["size"]): void {
    const { attributes } = element;
    const view = viewBoxOf(attributes.viewBox);
    const [width, height] = [
      lengthOf(attributes.width, size.width, size.width),
      lengthOf(attributes.height, size.height, size.height),
    ];
    const moving: Affine = [1, 0, 0, 1, lengthOf(attributes.x, size.width), lengthOf(attributes.y, size.height)];
    const at = composed(
      composed(place.at, moving),
      view ? fitted(view, width, height, attributes.preserveAspectRatio) : IDENTITY,
    );
    this.children(element, { ...place, at, size: view ?? { width, height } });
  }

  /** Only what is in the drawing itself, and not for ever within itself. */
  private use(element: SvgElement, place: Place): void {
    const { attributes } = element;
    const address = attributes.href ?? "";
    if (!address.startsWith("#")) {
      if (address !== "") this.unheeded.add("something from elsewhere");
      return;
    }
    const meant = this.byId.get(address.slice(1));
    if (!meant || place.depth >= DEEPEST_USE) return;
    const at = composed(place.at, [
      1,
      0,
      0,
      1,
      lengthOf(attributes.x, place.size.width),
      lengthOf(attributes.y, place.size.height),
    ]);
    const inner = { ...place, at, depth: place.depth + 1 };
    if (meant.name !== "symbol" && meant.name !== "svg") {
      this.draw(meant, inner);
      return;
    }
    const style = styleOf(meant, place.style, this.rules);
    const sized = {
      ...meant,
      attributes: {
        ...meant.attributes,
        ...(attributes.width ? { width: attributes.width } : {}),
        ...(attributes.height ? { height: attributes.height } : {}),
      },
    };
    this.nested(sized, { ...inner, style }, place.size);
  }

  private picture(element: SvgElement, { at, size }: Place): void {
    const { attributes } = element;
    if (!(attributes.href ?? "").startsWith("data:")) this.unheeded.add("a picture from elsewhere");
    const [x, y] = [lengthOf(attributes.x, size.width), lengthOf(attributes.y, size.height)];
    const [width, height] = [lengthOf(attributes.width, size.width), lengthOf(attributes.height, size.height)];
    const corners = [[x, y], [x + width, y], [x + width, y + height], [x, y + height]].map((point) => moved(at, point as unknown as Point)); // prettier-ignore
    this.pictures.push({ corners: corners as unknown as [Point, Point, Point, Point], pixels: null });
  }

  private clipAt(reference: string | undefined, at: Affine, outer: Place): Clip | null {
    const clip = this.referred(reference);
    if (clip?.name !== "clipPath" || (clip.attributes.clipPathUnits ?? "") === "objectBoundingBox") return outer.clip;
    const runs = clip.children.flatMap((child) => {
      if (typeof child === "string") return [];
      const inner = composed(at, transformOf(child.attributes.transform));
      return (outlineOf(child, outer.size) ?? []).map((run) => run.map((point) => moved(inner, point)));
    });
    return runs.length === 0 ? outer.clip : clipOf(runs, outer.clip);
  }

  private referred(reference: string | undefined): SvgElement | null {
    const id = /^url\(\s*["']?#([^"')]+)["']?\s*\)/.exec(reference ?? "")?.[1];
    return id === undefined ? null : (this.byId.get(id) ?? null);
  }

  private shape(outline: readonly (readonly Point[])[], { at, style, opacity, clip }: Place): void {
    if (style.visibility === "hidden" || style.visibility === "collapse") return;
    const placed = outline.map((run) => run.map((point) => moved(at, point)));
    if (!placed.every((run) => run.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y)))) return;
    if (this.isUntold(style.fill)) this.untold.push(...(clip === null ? placed : clipped(placed, clip, { closed: true }))); // prettier-ignore
    const fill = this.paint(style.fill ?? "black", style, opacity * opacityOf(style["fill-opacity"]));
    const stroke = this.paint(style.stroke ?? "none", style, opacity * opacityOf(style["stroke-opacity"]));
    const lineWidth = lengthOf(style["stroke-width"], 0, 1) * scaleOf(at);
    const dashed = /[1-9]/.test(style["stroke-dasharray"] ?? "") ? { dashed: true as const } : {};
    if (fill) {
      const left = clip === null ? placed : clipped(placed, clip, { closed: true });
      const rule = style["fill-rule"] === "evenodd" ? { evenOdd: true as const } : {};
      const see = fill.opacity < 1 ? { opacity: fill.opacity } : {};
      if (left.length > 0) this.add({ outline: left, fill: fill.hex, stroke: null, lineWidth: 0, ...rule, ...see });
    }
    if (stroke && lineWidth > 0) {
      const left = clip === null ? placed : clipped(placed, clip, { closed: false });
      if (left.length > 0) this.add({ outline: left, fill: null, stroke: stroke.hex, lineWidth, ...dashed });
    }
  }

  /** Whether a filling is there of which no colour is known. */
  private isUntold(fill: string | undefined): boolean {
    return fill !== undefined && this.referred(fill) !== null && this.paint(fill, {}, 1) === null;
  }

  private add(shape: PageShape): void {
    this.left -= shape.outline.reduce((sum, run) => sum + run.length, 0);
    if (this.left >= 0) this.shapes.push(shape);
  }

  private counted<T>(items: T[]): T[] {
    this.left -= items.length;
    return this.left >= 0 ? items : [];
  }

  private paint(
    text: string,
    style: Style,
    opacity: number,
  ): { readonly hex: string; readonly opacity: number } | null {
    if (opacity <= 0.02) return null;
    const colour = text.toLowerCase() === "currentcolor" ? cssColour(style.color ?? "black") : cssColour(text);
    if (colour) return colour.opacity * opacity > 0.02 ? { hex: colour.hex, opacity: colour.opacity * opacity } : null;
    const server = this.referred(text);
    if (!server) {
      if (/^url\(\s*["']?[^#"'\s]/.test(text)) this.unheeded.add("something from elsewhere");
      const otherwise = /\)\s*(\S+)$/.exec(text)?.[1];
      const hex = otherwise === undefined ? null : cssColour(otherwise)?.hex;
      return hex ? { hex, opacity } : null;
    }
    const hex = this.fillings.hexFor(text, () =>
      server.name === "pattern" ? this.meanOfPattern(server) : this.meanOfRun(server, DEEPEST_USE),
    );
    return hex ? { hex, opacity } : null;
  }

  /** Of a run of colours; its stops may be another's. */
  private meanOfRun(server: SvgElement, deep: number): string | null {
    const stops = server.children.flatMap((child): [number, string][] => {
      if (typeof child === "string" || child.name !== "stop") return [];
      const offset = child.attributes.offset ?? "0";
      const place = Number.parseFloat(offset) / (offset.trim().endsWith("%") ? 100 : 1);
      const hex = cssColour(styleOf(child, {}, this.rules)["stop-color"] ?? "black")?.hex;
      return hex && Number.isFinite(place) ? [[place, hex]] : [];
    });
    const other = (server.attributes.href ?? "").startsWith("#") && this.byId.get(server.attributes.href!.slice(1));
    return stops.length === 0 && other && deep > 0 ? this.meanOfRun(other, deep - 1) : meanOfStops(stops);
  }

  /** Null where a picture is in it. */
  private meanOfPattern(server: SvgElement): string | null {
    if (this.isTile) return null;
    const { attributes } = server;
    const view = viewBoxOf(attributes.viewBox);
    const [width, height] = [lengthOf(attributes.width, 1), lengthOf(attributes.height, 1)];
    // Its size may be told in parts of what it fills: then what is drawn in it tells, by its own units.
    const inParts = attributes.patternUnits !== "userSpaceOnUse" && view === null;
    if (!(width > 0 && height > 0) || inParts) return null;
    const before = { shapes: this.shapes.length, pictures: this.pictures.length, untold: this.untold.length };
    this.isTile = true;
    const size = view ?? { width, height };
    const style = styleOf(server, {}, this.rules);
    this.children(server, { at: IDENTITY, style, opacity: 1, clip: null, depth: 0, size });
    this.isTile = false;
    const shapes = this.shapes.splice(before.shapes);
    const isPlain = this.pictures.splice(before.pictures).length + this.untold.splice(before.untold).length === 0;
    return isPlain && this.left >= 0 ? meanOfTile(shapes, size.width * size.height) : null;
  }
}

/** In user units; null for what is no shape. Source: SVG 2, chapters 9 and 10. */
function outlineOf({ name, attributes }: SvgElement, size: Place["size"]): Point[][] | null {
  const x = (key: string): number => lengthOf(attributes[key], size.width);
  const y = (key: string): number => lengthOf(attributes[key], size.height);
  switch (name) {
    case "rect": {
      const [left, top, width, height] = [x("x"), y("y"), x("width"), y("height")];
      if (!(width > 0 && height > 0)) return [];
      const [rx, ry] = [attributes.rx ? x("rx") : y("ry"), attributes.ry ? y("ry") : x("rx")];
      if (rx >= width * ROUND && ry >= height * ROUND)
        return [ring(left + width / 2, top + height / 2, width / 2, height / 2)];
      return [[[left, top], [left + width, top], [left + width, top + height], [left, top + height], [left, top]]]; // prettier-ignore
    }
    case "circle":
      return x("r") > 0 ? [ring(x("cx"), y("cy"), x("r"), x("r"))] : [];
    case "ellipse":
      return x("rx") > 0 && y("ry") > 0 ? [ring(x("cx"), y("cy"), x("rx"), y("ry"))] : [];
    case "line":
      return [[[x("x1"), y("y1")], [x("x2"), y("y2")]]]; // prettier-ignore
    case "polyline":
    case "polygon": {
      const numbers = (attributes.points ?? "")
        .split(/[\s,]+/)
        .filter(Boolean)
        .map(Number);
      if (!numbers.every(Number.isFinite)) return [];
      const points = Array.from({ length: Math.floor(numbers.length / 2) }, (_, at): Point => [
        numbers[2 * at]!,
        numbers[2 * at + 1]!,
      ]);
      return points.length < 2 ? [] : [name === "polygon" ? [...points, points[0]!] : points];
    }
    case "path":
      return pathOfData(attributes.d ?? "");
    default:
      return null;
  }
}

/** Four curves that keep within 0.03 % of an ellipse. Source: the usual 4/3 (√2 − 1). */
function ring(cx: number, cy: number, rx: number, ry: number): Point[] {
  const [kx, ky] = [0.5522847 * rx, 0.5522847 * ry];
  return [
    [cx + rx, cy],
    ...curve([cx + rx, cy], [cx + rx, cy + ky], [cx + kx, cy + ry], [cx, cy + ry]),
    ...curve([cx, cy + ry], [cx - kx, cy + ry], [cx - rx, cy + ky], [cx - rx, cy]),
    ...curve([cx - rx, cy], [cx - rx, cy - ky], [cx - kx, cy - ry], [cx, cy - ry]),
    ...curve([cx, cy - ry], [cx + kx, cy - ry], [cx + rx, cy - ky], [cx + rx, cy]),
  ];
}

/** Points to a user unit. */
const POINTS = 72 / 96;
/** User units: a page where the drawing does not say. Source: CSS 2.2, 10.3.2 (300 × 150). */
const FULL = { width: 300, height: 150 };
const LONGEST = 1_000_000;
const MOST_POINTS = 5_000_000;
/** What finding the style of one takes, in points. */
const POINTS_PER_ELEMENT = 10;
const DEEPEST_USE = 12;
/** Part of its side from which on a rectangle's round corner makes it round. */
const ROUND = 0.3;
const RUN = new Set(["script", "foreignObject", "animate", "set", "animateTransform", "iframe", "handler"]);
const UNSEEN = new Set([
  ...RUN,
  "defs",
  "symbol",
  "clipPath",
  "mask",
  "pattern",
  "marker",
  "style",
  "title",
  "desc",
  "metadata",
  "linearGradient",
  "radialGradient",
  "filter",
]);

/** Where the letters of a PDF's text operators stand. */
import type { PageGlyph } from "../pagePrimitives.ts";
import { composed, IDENTITY, moved, type Affine } from "./affine.ts";

/** What is wanted of a font as pdfjs keeps one. */
export interface PdfFont {
  readonly name?: string;
  readonly isType3Font?: boolean;
  readonly vertical?: boolean;
  readonly fontMatrix?: readonly number[] | null;
  readonly defaultVMetrics?: readonly number[] | null;
}

export interface TextState {
  readonly font: PdfFont | null;
  readonly fontName: string;
  readonly fontSize: number;
  readonly letterSpace: number;
  readonly wordSpace: number;
  readonly stretch: number;
  readonly leading: number;
  readonly rise: number;
  /** Null where letters are invisible or only cut out. */
  readonly renders: "fill" | "stroke" | null;
  readonly textAt: Affine;
  readonly x: number;
  readonly y: number;
  readonly lineX: number;
  readonly lineY: number;
}

/** Source: ISO 32000-1, table 104. */
export const startText = (): TextState => ({
  font: null,
  fontName: "",
  fontSize: 0,
  letterSpace: 0,
  wordSpace: 0,
  stretch: 1,
  leading: 0,
  rise: 0,
  renders: "fill",
  textAt: IDENTITY,
  ...LINE_START,
});

const LINE_START = { x: 0, y: 0, lineX: 0, lineY: 0 };

type TextOperator = (
  state: TextState,
  args: readonly unknown[],
  fontOf: (name: string) => PdfFont | null,
) => Partial<TextState>;

/** By pdfjs' names: what each changes. Source of their meaning: ISO 32000-1, tables 105 to 108. */
export const textOperators: Readonly<Record<string, TextOperator>> = {
  beginText: () => ({ textAt: IDENTITY, ...LINE_START }),
  setCharSpacing: (_, [space]) => ({ letterSpace: number(space) }),
  setWordSpacing: (_, [space]) => ({ wordSpace: number(space) }),
  setHScale: (_, [percent]) => ({ stretch: number(percent) / 100 }),
  setLeading: (_, [leading]) => ({ leading: -number(leading) }),
  setTextRise: (_, [rise]) => ({ rise: number(rise) }),
  setTextRenderingMode: (_, [mode]) => ({ renders: RENDERS[number(mode)] ?? null }),
  setFont: (_, [name, size], fontOf) => ({
    font: typeof name === "string" ? fontOf(name) : null,
    fontName: String(name),
    fontSize: number(size),
  }),
  moveText: (state, [x, y]) => movedLine(state, number(x), number(y)),
  setLeadingMoveText: (state, [x, y]) => ({ ...movedLine(state, number(x), number(y)), leading: number(y) }),
  nextLine: (state) => movedLine(state, 0, state.leading),
  setTextMatrix: (_, [matrix]) => {
    const six = Array.from((matrix as ArrayLike<number>) ?? []);
    return six.length === 6 && six.every(Number.isFinite) ? { textAt: six as unknown as Affine, ...LINE_START } : {};
  },
};

/** Source: ISO 32000-1, table 106; 3 is invisible (as read letters lie over a scan) and 7 only cuts out. */
const RENDERS: readonly TextState["renders"][] = ["fill", "stroke", "fill", null, "fill", "stroke", "fill", null];

function movedLine({ lineX, lineY }: TextState, x: number, y: number): Partial<TextState> {
  return { x: lineX + x, lineX: lineX + x, y: lineY + y, lineY: lineY + y };
}

interface PdfGlyph {
  readonly unicode?: string;
  readonly fontChar?: string;
  readonly originalCharCode?: number;
  readonly operatorListId?: string;
  readonly width?: number;
  readonly vmetric?: readonly number[] | null;
  readonly isSpace?: boolean;
}

type Letter = Omit<PageGlyph, "colour">;

/** The letters of one `showText`, and where the next one begins. Spaces are left out. */
export function lettersOf(
  shown: readonly unknown[],
  state: TextState,
  at: Affine,
): { letters: Letter[]; after: Partial<TextState> } {
  const { font, fontSize, textAt, stretch, rise, letterSpace, wordSpace } = state;
  if (!font || fontSize === 0) return { letters: [], after: {} };
  const whole = composed(at, textAt);
  const direction = fontSize < 0 ? -1 : 1;
  const em = font.fontMatrix?.[0] || GLYPH_UNIT;
  const vertical = font.vertical === true;
  const across = stretch;
  const letters: Letter[] = [];
  let along = 0;
  for (const glyph of shown) {
    if (typeof glyph === "number") {
      along += ((vertical ? 1 : -1) * glyph * fontSize) / 1000;
      continue;
    }
    const { width = 0, vmetric, isSpace } = glyph as PdfGlyph;
    const space = (isSpace ? wordSpace : 0) + letterSpace;
    const metric = vmetric ?? font.defaultVMetrics;
    const advance = vertical
      ? -(metric?.[0] ?? -1000) * fontSize * em - space * direction
      : width * fontSize * em + space;
    const text = signOf(glyph as PdfGlyph);
    if (text.trim() !== "") {
      const origin = vertical
        ? moved(whole, [
            state.x - (metric?.[1] ?? width / 2) * fontSize * em,
            state.y - along - (metric?.[2] ?? 0) * fontSize * em + rise,
          ])
        : moved(whole, [state.x + along * across, state.y + rise]);
      const [a, b, c, d] = whole;
      letters.push({
        text,
        x: origin[0],
        y: origin[1],
        size: Math.abs(fontSize) * Math.hypot(c, d) * (font.isType3Font ? type3Scale(font) : 1),
        width: Math.abs(width * fontSize * em * across) * Math.hypot(a, b),
        font: baseName(font.name ?? state.fontName),
        turned: ((Math.atan2(b * direction, a * direction) * 180) / Math.PI + 360) % 360,
      });
    }
    along += advance;
  }
  return { letters, after: vertical ? { y: state.y - along } : { x: state.x + along * across } };
}

/** Widths in fonts are in thousandths of an em, but in drawn ("Type 3") fonts, which say so. */
const GLYPH_UNIT = 0.001;
const type3Scale = (font: PdfFont): number => Math.abs((font.fontMatrix?.[3] ?? GLYPH_UNIT) / GLYPH_UNIT) || 1;

/** What it says; where the font does not tell, a private-use character that is the same for the same glyph. */
function signOf({ unicode = "", fontChar = "", originalCharCode, operatorListId }: PdfGlyph): string {
  if (unicode !== "" && !/[\p{Cc}\p{Co}\p{Cn}\ufffd]/u.test(unicode)) return unicode;
  const code = originalCharCode ?? fontChar.codePointAt(0) ?? hash(operatorListId ?? "");
  return String.fromCodePoint(PRIVATE + (code & 0xffff));
}

const PRIVATE = 0xf0000;
const hash = (text: string): number =>
  Array.from(text).reduce((sum, letter) => (sum * 31 + letter.codePointAt(0)!) & 0xffff, 0);

/** Without the six letters that mark a font of which only part is embedded. Source: ISO 32000-1, 9.6.4. */
const baseName = (name: string): string => name.replace(/^[A-Z]{6}\+/, "");

const number = (value: unknown): number => (typeof value === "number" && Number.isFinite(value) ? value : 0);

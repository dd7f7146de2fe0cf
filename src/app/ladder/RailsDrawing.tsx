/** What is drawn between the two rails: greys from light to dark, the value classes, her other yarns, the links. */
import type { PointerEvent, ReactNode } from "react";
import { hexFromLab } from "../../colour/lab.ts";
import { DEFAULT_VALUE_LIMITS } from "../../colour/value.ts";
import type { LadderRung } from "../worker/api.ts";
import type { YarnDot } from "./yarnDots.ts";

interface RailsDrawingProps {
  readonly lines: readonly LadderRung[];
  readonly assigned: readonly YarnDot[];
  readonly others: readonly YarnDot[];
  /** Where lines and assigned yarns stand. */
  readonly leftY: readonly number[];
  readonly rightY: readonly number[];
  /** Height of a lightness. */
  readonly y: (L: number) => number;
  readonly span: { readonly top: number; readonly bottom: number };
  readonly size: { readonly width: number; readonly height: number };
  /** Where links begin and end, and where the strip of other yarns begins. */
  readonly left: number;
  readonly right: number;
  readonly strip: number;
  /** Where the thing in the hand comes from, and where the hand is. */
  readonly hand: { readonly from: { x: number; y: number } | undefined; readonly x: number; readonly y: number } | null;
  /** Links stand back behind the words of a carried yarn. */
  readonly quiet: boolean;
  readonly carriedYarn: string | null;
  readonly onTake: (event: PointerEvent, yarn: string) => void;
}

const { light, lightMedium, mediumDark } = DEFAULT_VALUE_LIMITS;
const CLASSES = [
  { name: "light", from: 100, to: light },
  { name: "light-medium", from: light, to: lightMedium },
  { name: "medium-dark", from: lightMedium, to: mediumDark },
  { name: "dark", from: mediumDark, to: 0 },
];

/** CSS pixels that the greys at the left take. */
export const RAMP = 6;

export function RailsDrawing(props: RailsDrawingProps): ReactNode {
  const { lines, assigned, leftY, rightY, y, span, size, left, right, strip, hand, quiet } = props;
  return (
    <svg width={size.width} height={size.height} aria-hidden="true">
      <defs>
        <linearGradient id="ramp" x1="0" x2="0" y1="0" y2="1">
          {rampStops(span).map(({ offset, grey }) => (
            <stop key={offset} offset={offset} stopColor={grey} />
          ))}
        </linearGradient>
      </defs>
      <rect x={0} y={14} width={RAMP} height={size.height - 28} rx={3} fill="url(#ramp)" />
      {[light, lightMedium, mediumDark].map((limit) => (
        <line key={limit} className="limit" x1={RAMP + 4} x2={strip - 6} y1={y(limit)} y2={y(limit)} />
      ))}
      <OtherYarns {...props} />
      {lines.map(({ colour, was }, i) => (
        <path key={colour} className="tie" d={`M${RAMP} ${y(was.L)}L${RAMP + 12} ${leftY[i]!}`} />
      ))}
      {assigned.map(({ id, L }, i) => (
        <path key={id} className="tie" d={`M${strip} ${y(L)}L${strip - 8} ${rightY[i]!}`} />
      ))}
      <Links {...props} />
      {!quiet &&
        CLASSES.map(({ name, from, to }) => {
          const [top, bottom] = [y(Math.min(from, span.top)), y(Math.max(to, span.bottom))];
          return bottom - top > 20 ? (
            <ClassName key={name} name={name} x={(left + right) / 2} y={top + 15} room={right - left} />
          ) : null;
        })}
      {hand?.from && <path className="carry" d={`M${hand.from.x} ${hand.from.y}L${hand.x} ${hand.y}`} />}
    </svg>
  );
}

/** CSS pixels that the longest name takes in one line. */
const CLASS_NAME = 76;

function ClassName({ name, x, y, room }: { name: string; x: number; y: number; room: number }): ReactNode {
  const parts = room < CLASS_NAME ? name.split(/(?<=-)/) : [name];
  return (
    <text className="class-name" y={y} textAnchor="middle">
      {parts.map((part, i) => (
        <tspan key={part} x={x} dy={i * 12}>
          {part}
        </tspan>
      ))}
    </text>
  );
}

/** The yarns that no colour has, as short strokes at their lightness: where she has much and where little. */
function OtherYarns({ others, y, strip, size, carriedYarn, onTake }: RailsDrawingProps): ReactNode {
  return (
    <>
      <rect x={strip} y={14} width={16} height={size.height - 28} rx={3} className="strip" />
      {others.map(({ id, L, hex, name }) => {
        const thick = carriedYarn === id;
        return (
          <g key={id} className="stroke" onPointerDown={(event) => onTake(event, id)}>
            <title>{`${name}, L* ${Math.round(L)}`}</title>
            <rect x={strip - 4} y={y(L) - 5} width={24} height={10} fill="transparent" />
            <rect
              x={thick ? strip - 8 : strip + 1}
              y={y(L) - (thick ? 3 : 1.5)}
              width={thick ? 24 : 14}
              height={thick ? 6 : 3}
              fill={hex}
            />
          </g>
        );
      })}
    </>
  );
}

/** A link for every assignment; those that cross another lie on top and are heavy. */
function Links({ lines, assigned, leftY, rightY, left, right }: RailsDrawingProps): ReactNode {
  const placeOf = new Map(assigned.map(({ id }, i) => [id, rightY[i]!]));
  const bend = (right - left) * 0.45;
  return lines
    .map((line, i) => ({ line, from: leftY[i]!, to: line.yarn === null ? undefined : placeOf.get(line.yarn) }))
    .sort((a, b) => a.line.crosses.length - b.line.crosses.length)
    .map(({ line, from, to }) =>
      to === undefined ? null : (
        <path
          key={line.colour}
          className={line.crosses.length > 0 ? "link heavy" : "link"}
          data-link={line.colour}
          d={`M${left} ${from}C${left + bend} ${from} ${right - bend} ${to} ${right} ${to}`}
        />
      ),
    );
}

/** Greys as the eye sees them, from the top of the ladder to its foot. */
function rampStops({ top, bottom }: { top: number; bottom: number }): { offset: number; grey: string }[] {
  return Array.from({ length: 9 }, (_, i) => {
    const offset = i / 8;
    return { offset, grey: hexFromLab([top + (bottom - top) * offset, 0, 0]) };
  });
}

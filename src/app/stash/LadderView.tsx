/** Her yarns by value: one axis from light to dark, every yarn at its own lightness, the value classes marked. */
import { useCallback, useMemo, type ReactNode } from "react";
import { hexFromLab } from "../../colour/lab.ts";
import { lightnessRange } from "../../colour/shadeRange.ts";
import { DEFAULT_VALUE_LIMITS } from "../../colour/value.ts";
import { uncertaintyOfYarn } from "../../yarn/yarn.ts";
import type { Cursor } from "./cursor.ts";
import { alongLadder, heightOf, LADDER_MARGIN, type Area, type LadderSpan, type Placed } from "./layouts.ts";
import type { StashLine } from "./lines.ts";
import { nameWidth } from "./nameWidths.ts";
import { PlaneView } from "./PlaneView.tsx";

const { light, lightMedium, mediumDark } = DEFAULT_VALUE_LIMITS;
const LIMITS = [light, lightMedium, mediumDark];
const CLASSES = [
  { name: "light", from: 100, to: light },
  { name: "light-medium", from: light, to: lightMedium },
  { name: "medium-dark", from: lightMedium, to: mediumDark },
  { name: "dark", from: mediumDark, to: 0 },
] as const;

/** CSS pixels left of the yarns: the greys and the names of the classes. */
const GUTTER = 104;
/** L* of room beyond the lightest and the darkest yarn. */
const BEYOND = 4;

interface LadderViewProps {
  readonly cursor: Cursor;
  /** All that is on the shelf: the axis stays where it is while she searches. */
  readonly all: readonly StashLine[];
}

export function LadderView({ cursor, all }: LadderViewProps): ReactNode {
  const { lines } = cursor;
  const span = useMemo(() => spanOf(all), [all]);
  const place = useCallback(
    (area: Area): Placed => {
      const items = lines.map(({ id, L, yarn }) => ({ id, L, nameWidth: nameWidth(yarn.name) }));
      const room = { width: area.width - GUTTER - 8, height: area.height };
      const { radius, spots } = alongLadder(items, span, room);
      return {
        radius,
        spots: spots.map((spot) => ({
          ...spot,
          x: spot.x + GUTTER,
          name: spot.name && { ...spot.name, x: spot.name.x + GUTTER },
        })),
      };
    },
    [lines, span],
  );
  const ground = useCallback((area: Area) => <LadderGround area={area} span={span} lines={lines} />, [span, lines]);
  const reach = ({ lab, yarn }: StashLine, { height }: Area): [number, number] => {
    const [low, high] = lightnessRange(lab, uncertaintyOfYarn(yarn));
    return [heightOf(high, span, height), heightOf(low, span, height)];
  };
  return (
    <PlaneView label="Your yarns from light to dark" cursor={cursor} place={place} reach={reach} ground={ground} />
  );
}

function spanOf(lines: readonly StashLine[]): LadderSpan {
  const all = lines.map(({ L }) => L);
  return {
    top: Math.min(100, Math.max(light, ...all) + BEYOND),
    bottom: Math.max(0, Math.min(mediumDark, ...all) - BEYOND),
  };
}

interface LadderGroundProps {
  readonly area: Area;
  readonly span: LadderSpan;
  readonly lines: readonly StashLine[];
}

function LadderGround({ area: { width, height }, span, lines }: LadderGroundProps): ReactNode {
  const y = (L: number): number => heightOf(L, span, height);
  const steps = Array.from({ length: 11 }, (_, step) => span.top + ((span.bottom - span.top) * step) / 10);
  return (
    <svg width={width} height={height} aria-hidden="true">
      <defs>
        <linearGradient id="stash-ramp" x1="0" x2="0" y1="0" y2="1">
          {steps.map((L, step) => (
            <stop key={step} offset={step / 10} stopColor={hexFromLab([L, 0, 0])} />
          ))}
        </linearGradient>
      </defs>
      <rect
        x={0.5}
        y={LADDER_MARGIN}
        width={8}
        height={Math.max(0, height - 2 * LADDER_MARGIN)}
        rx={4}
        fill="url(#stash-ramp)"
        stroke="rgb(0 0 0 / 0.25)"
      />
      {LIMITS.map((limit) => (
        <line key={limit} className="limit" x1={14} x2={width} y1={y(limit)} y2={y(limit)} />
      ))}
      {CLASSES.map(({ name, from, to }) => {
        const top = Math.max(LADDER_MARGIN, y(Math.min(from, span.top)));
        const count = lines.filter(({ L }) => L < (from === 100 ? Infinity : from) && L >= to).length;
        return (
          <text key={name} className="class-label" x={18} y={top + 15}>
            {name}
            <tspan className="class-count" x={18} dy={15}>
              {count}
            </tspan>
          </text>
        );
      })}
    </svg>
  );
}

/** Her yarns by hue: greys in the middle, strong colours at the rim, as CIELAB has them. */
import { useCallback, useMemo, type ReactNode } from "react";
import type { Cursor } from "./cursor.ts";
import { aroundCircle, circleIn, type Area, type Placed } from "./layouts.ts";
import type { StashLine } from "./lines.ts";
import { nameWidth } from "./nameWidths.ts";
import { PlaneView } from "./PlaneView.tsx";

/** Hue angles of CIELAB where people mostly say the word; from memory, words only to find one's way. */
const HUE_WORDS: readonly (readonly [number, string])[] = [
  [5, "pink"],
  [35, "red"],
  [62, "orange"],
  [92, "yellow"],
  [125, "lime"],
  [155, "green"],
  [205, "turquoise"],
  [262, "blue"],
  [305, "violet"],
  [335, "purple"],
];

interface HueViewProps {
  readonly cursor: Cursor;
  readonly all: readonly StashLine[];
}

export function HueView({ cursor, all }: HueViewProps): ReactNode {
  const { lines } = cursor;
  const strongest = useMemo(() => Math.max(0, ...all.map(({ chroma }) => chroma)), [all]);
  const place = useCallback(
    (area: Area): Placed =>
      aroundCircle(
        lines.map(({ id, lab: [, a, b], yarn }) => ({ id, a, b, nameWidth: nameWidth(yarn.name) })),
        circleIn(area, strongest),
        area,
      ),
    [lines, strongest],
  );
  const ground = useCallback((area: Area) => <HueGround area={area} strongest={strongest} />, [strongest]);
  return <PlaneView label="Your yarns by hue" cursor={cursor} place={place} ground={ground} />;
}

function HueGround({ area, strongest }: { readonly area: Area; readonly strongest: number }): ReactNode {
  const { middle, radius, rim } = circleIn(area, strongest);
  const [x, y] = middle;
  const rings = Array.from({ length: rim / 20 }, (_, ring) => 20 * (ring + 1));
  return (
    <svg width={area.width} height={area.height} aria-hidden="true">
      {rings.map((chroma) => (
        <circle key={chroma} className="ring" cx={x} cy={y} r={(radius * chroma) / rim} />
      ))}
      <path className="ring" d={`M${x - 5} ${y}h10M${x} ${y - 5}v10`} />
      {HUE_WORDS.map(([degrees, word]) => {
        const turn = (degrees * Math.PI) / 180;
        const [across, up] = [Math.cos(turn), Math.sin(turn)];
        const anchor = across > 0.35 ? "start" : across < -0.35 ? "end" : "middle";
        return (
          <text
            key={word}
            className="class-label"
            x={x + (radius + 8) * across}
            y={y - (radius + 8) * up + 4 - up * 4}
            textAnchor={anchor}
          >
            {word}
          </text>
        );
      })}
    </svg>
  );
}

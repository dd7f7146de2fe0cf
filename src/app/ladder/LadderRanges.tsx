/** How sure the ladder is: a thin bar over the lightness that each colour may have, and in words what that leaves open. */
import type { ReactNode } from "react";
import { createPortal } from "react-dom";
import type { LadderRung } from "../worker/api.ts";
import { openSentence, rangeSentence } from "./rangeWords.ts";
import "../style/ranges.css";

interface LadderRangesProps {
  readonly lines: readonly LadderRung[];
  /** The rails, over which the bars are drawn. */
  readonly frame: HTMLElement | null;
  readonly size: { readonly width: number; readonly height: number };
  /** Height of a lightness. */
  readonly y: (L: number) => number;
  /** Where the greys of the pattern's side end, and where the strip of yarns begins. */
  readonly ramp: number;
  readonly strip: number;
}

export function LadderRanges({ lines, frame, size, y, ramp, strip }: LadderRangesProps): ReactNode {
  const knitted = lines.filter(({ yarn }) => yarn !== null).toSorted((one, other) => other.L - one.L);
  const open = openSentence(lines);
  return (
    <>
      {frame &&
        createPortal(
          <>
            <svg className="ranges" width={size.width} height={size.height} aria-hidden="true">
              {lines.map(({ colour, was }, at) => (
                <Bar key={colour} of={was} x={ramp + 2.5 + lane(at)} y={y} />
              ))}
              {knitted.map((line, at) => (
                <Bar key={line.colour} of={line} x={strip - 2 - lane(at)} y={y} name={line.colour} />
              ))}
            </svg>
            {lines.map((line) => (
              <span key={line.colour} id={`range-${line.colour}`} hidden>
                {rangeSentence(line, lines)}
              </span>
            ))}
          </>,
          frame,
        )}
      {open && <p className="order-open">{open}</p>}
    </>
  );
}

/** Neighbours stand beside one another, so that bars that overlap are told apart: CSS pixels. */
const lane = (at: number): number => (at % 3) * 3;

/** A range that is narrower than this in L* is as good as a point. */
const POINT = 0.5;

interface BarProps {
  readonly of: { readonly L: number; readonly low: number; readonly high: number };
  readonly x: number;
  readonly y: (L: number) => number;
  readonly name?: string;
}

function Bar({ of: { low, high }, x, y, name }: BarProps): ReactNode {
  if (high - low < POINT) return null;
  return <line className="range" x1={x} x2={x} y1={y(high)} y2={y(low)} {...(name && { "data-range": name })} />;
}

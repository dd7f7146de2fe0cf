/** Icons, drawn from the two legs of a knit stitch and the strand that makes it. */
import type { ReactNode } from "react";

const LEFT_LEG = "M4.5 4.5c3.6 1.2 6.6 6 7.5 14.5-4.6-1.6-8-7.2-7.5-14.5z";
const RIGHT_LEG = "M19.5 4.5c-3.6 1.2-6.6 6-7.5 14.5 4.6-1.6 8-7.2 7.5-14.5z";

/** One knit stitch, as large as `scale` of the whole icon. */
export const stitch = (scale: number, x: number, y: number, key?: string): ReactNode => (
  <g key={key} transform={`translate(${x} ${y}) scale(${scale})`} fill="currentColor" stroke="none">
    <path d={LEFT_LEG} />
    <path d={RIGHT_LEG} />
  </g>
);

const SHAPES = {
  stitch: stitch(1, 0, 0),
  undo: (
    <>
      <g transform="rotate(90 7 9.5)">{stitch(0.5, 1, 3)}</g>
      <path d="M8 9.5h6.5a5.2 5.2 0 0 1 0 10.4H8.5" />
    </>
  ),
  redo: (
    <>
      <g transform="rotate(-90 17 9.5)">{stitch(0.5, 11, 3)}</g>
      <path d="M16 9.5H9.5a5.2 5.2 0 0 0 0 10.4h6" />
    </>
  ),
  open: (
    <>
      <g transform="rotate(180 12 7)">{stitch(0.54, 5.5, 2)}</g>
      <path d="M12 6v9M3 14.5v5.5h18v-5.5" />
    </>
  ),
  save: (
    <>
      {stitch(0.54, 5.5, 5.2)}
      <path d="M12 2v8M3 14.5v5.5h18v-5.5" />
    </>
  ),
  cloth: (
    <>
      {stitch(0.46, 0.6, 0.8)}
      {stitch(0.46, 12.4, 0.8)}
      {stitch(0.46, 0.6, 11.6)}
      {stitch(0.46, 12.4, 11.6)}
    </>
  ),
  copy: (
    <>
      {stitch(0.62, -0.5, 5)}
      {stitch(0.62, 9.5, 2)}
    </>
  ),
  bigger: (
    <>
      {stitch(0.72, -1, 5)}
      <path d="M19 5v8M15 9h8" />
    </>
  ),
  smaller: (
    <>
      {stitch(0.5, 0.5, 8)}
      <path d="M15 9h7" />
    </>
  ),
  width: (
    <>
      {stitch(0.46, 2.2, 6.2)}
      {stitch(0.46, 10.8, 6.2)}
      <path d="M1.5 5v14M22.5 5v14" />
    </>
  ),
  whole: (
    <>
      {stitch(0.42, 2.2, 3.4)}
      {stitch(0.42, 11.4, 3.4)}
      {stitch(0.42, 2.2, 10.4)}
      {stitch(0.42, 11.4, 10.4)}
      <path d="M4 1.5h16M4 22.5h16" />
    </>
  ),
  bound: (
    <>
      {stitch(0.78, 2.6, 6)}
      <path d="M5 6.5C5 1.5 19 1.5 19 6.5" />
    </>
  ),
  more: (
    <>
      {stitch(0.36, -0.6, 7.5)}
      {stitch(0.36, 7.6, 7.5)}
      {stitch(0.36, 15.8, 7.5)}
    </>
  ),
} satisfies Record<string, ReactNode>;

export type IconName = keyof typeof SHAPES;

export function Icon({ name, size = 20 }: { readonly name: IconName; readonly size?: number }): ReactNode {
  return <Drawn size={size}>{SHAPES[name]}</Drawn>;
}

/** The frame of every icon, for those that a later part of the page brings along. */
export function Drawn({ size = 20, children }: { readonly size?: number; readonly children: ReactNode }): ReactNode {
  return (
    <svg
      className="icon"
      width={size}
      height={size}
      viewBox="0 0 24 24"
      fill="none"
      stroke="currentColor"
      strokeWidth="1.7"
      strokeLinecap="round"
      aria-hidden="true"
    >
      {children}
    </svg>
  );
}

/** Icons of the drawing tools, of the same two legs as all others; they come with the desk. */
import type { ReactNode } from "react";
import { Drawn, stitch } from "../ui/Icon.tsx";
import type { Tool } from "./gesture.ts";

type DeskIconName = Tool | "across" | "up" | "right" | "left" | "about";

const SHAPES: Readonly<Record<DeskIconName, ReactNode>> = {
  pencil: (
    <>
      {stitch(0.6, 0.2, 9)}
      <path d="M9.5 13.5 18.5 4.5M15.5 3.8l4.2 4.2" />
    </>
  ),
  line: (
    <>
      {stitch(0.42, -1, 13)}
      {stitch(0.42, 6.6, 7.4)}
      {stitch(0.42, 14.4, 1.6)}
    </>
  ),
  rectangle: (
    <>
      {stitch(0.36, 0, 0.8)}
      {stitch(0.36, 7.7, 0.8)}
      {stitch(0.36, 15.4, 0.8)}
      {stitch(0.36, 0, 7.9)}
      {stitch(0.36, 15.4, 7.9)}
      {stitch(0.36, 0, 15)}
      {stitch(0.36, 7.7, 15)}
      {stitch(0.36, 15.4, 15)}
    </>
  ),
  fill: (
    <>
      {stitch(0.46, 0.6, 6.6)}
      {stitch(0.46, 12.4, 6.6)}
      {stitch(0.46, 6.5, 12.6)}
      <path d="M12 2v7.5M9 6.8l3 3 3-3" />
    </>
  ),
  select: (
    <>
      {stitch(0.5, 6, 6.2)}
      <path d="M3 3h18v18H3z" strokeDasharray="3.4 2.6" />
    </>
  ),
  pick: (
    <>
      {stitch(0.7, -0.4, 6.8)}
      <path d="M21 3v6.5h-6.5M21 9.5 14.8 3.3" />
    </>
  ),
  hand: (
    <>
      {stitch(0.5, 6, 6.2)}
      <path d="M12 1.5v3M12 19.5v3M1.5 12h3M19.5 12h3" />
    </>
  ),
  across: (
    <>
      <g transform="rotate(-24 6 13)">{stitch(0.5, 0, 7)}</g>
      <g transform="rotate(24 18 13)">{stitch(0.5, 12, 7)}</g>
      <path d="M12 3v18" strokeDasharray="2.4 2.8" />
    </>
  ),
  up: (
    <>
      {stitch(0.46, 6.5, 0)}
      <g transform="rotate(180 12 18.6)">{stitch(0.46, 6.5, 13.2)}</g>
      <path d="M3 12h18" strokeDasharray="2.4 2.8" />
    </>
  ),
  right: (
    <>
      {stitch(0.52, 0.4, 8.6)}
      <path d="M8 5.5a8.5 8.5 0 0 1 11.6 8M22 10.5l-2.6 3.3-3-3" />
    </>
  ),
  left: (
    <>
      {stitch(0.52, 11.2, 8.6)}
      <path d="M16 5.5a8.5 8.5 0 0 0-11.6 8M2 10.5l2.6 3.3 3-3" />
    </>
  ),
  about: (
    <>
      {stitch(0.44, 0.4, 6.8)}
      <g transform="rotate(180 17.8 12)">{stitch(0.44, 12.5, 6.8)}</g>
      <path d="M7 4.5c4-2.6 8-2 10.6.6M17 19.5c-4 2.6-8 2-10.6-.6" />
    </>
  ),
};

export function DeskIcon({ name }: { readonly name: DeskIconName }): ReactNode {
  return <Drawn>{SHAPES[name]}</Drawn>;
}

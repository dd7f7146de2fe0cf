/** Where rows, columns and panes stand; expected values by hand from 28 stitches and 30 rows to 10 cm. */
import { describe, expect, it } from "vitest";
import { columnAt, fabricGeometry, gutterInView, numbersInView, rowAt, rowTop, STITCH_LEAST } from "./geometry.ts";

/** 24 stitches by 10 rows, gauge 28 × 30, so that a row is 28/30 of a stitch high. */
const chart = { id: "c1", rows: Array.from({ length: 10 }, () => "AB".repeat(12)) };
const gauge = { stitches: 28, rows: 30 };
const wide = { width: 900, height: 400 };

describe("the fabric's geometry", () => {
  it("fits whole repeats into the width, and no scrolling sideways", () => {
    const geometry = fabricGeometry({ chart, gauge, view: wide, zoom: "width", split: false });
    expect(geometry.content.width).toBe(900);
    expect(geometry.panes).toHaveLength(1);
    const { repeats, width } = geometry.panes[0]!;
    expect(repeats).toBeCloseTo(Math.round(repeats), 9);
    expect(width).toBeCloseTo(repeats * 24 * geometry.stitch, 9);
  });

  it("keeps a knitted stitch in true proportion", () => {
    const { stitch, row } = fabricGeometry({ chart, gauge, view: wide, zoom: 15, split: false });
    expect(stitch).toBe(15);
    expect(row).toBeCloseTo(14, 9);
  });

  it("shows all rows when the whole is asked for", () => {
    const tall = { id: "c", rows: Array.from({ length: 200 }, () => "AB".repeat(12)) };
    const geometry = fabricGeometry({ chart: tall, gauge, view: wide, zoom: "whole", split: false });
    expect(geometry.content.height).toBe(400);
    expect(geometry.stitch).toBeGreaterThanOrEqual(STITCH_LEAST);
  });

  it("knitted flat, the chart ends at its edges", () => {
    const flat = { ...chart, worked: "flat" as const };
    const { panes } = fabricGeometry({ chart: flat, gauge, view: wide, zoom: 10, split: false });
    expect(panes[0]).toMatchObject({ width: 240, repeats: 1 });
  });

  it("sets before and after side by side, alike in size", () => {
    const { panes } = fabricGeometry({ chart, gauge, view: wide, zoom: "width", split: true });
    expect(panes.map(({ side }) => side)).toEqual(["now", "then"]);
    expect(panes[0]!.width).toBe(panes[1]!.width);
    expect(panes[1]!.gutter).toBeGreaterThan(panes[0]!.left + panes[0]!.width);
  });

  it("keeps marks and numbers in view beside a cloth that is scrolled sideways", () => {
    const phone = { width: 370, height: 400 };
    const geometry = fabricGeometry({ chart, gauge, view: phone, zoom: 30, split: false });
    const pane = geometry.panes[0]!;
    expect(pane.width).toBe(24 * 30);
    expect(gutterInView(pane, 0)).toBe(pane.gutter);
    expect(gutterInView(pane, 200)).toBe(200);
    expect(numbersInView(geometry, 200, 370)).toBe(200 + 370 - geometry.numbers);
    // At the far end the numbers stand where the cloth ends.
    expect(numbersInView(geometry, geometry.content.width - 370, 370)).toBe(pane.left + pane.width);
  });

  it("finds rows from below and columns from the right", () => {
    const geometry = fabricGeometry({ chart, gauge, view: wide, zoom: 15, split: false });
    const pane = geometry.panes[0]!;
    expect(rowAt(geometry, rowTop(geometry, 3) + 1)).toBe(3);
    expect(rowAt(geometry, rowTop(geometry, 10) - 1)).toBeNull();
    expect(rowAt(geometry, rowTop(geometry, 1) + 13.9)).toBe(1);
    expect(columnAt(geometry, pane, pane.left + 1, 24)).toBe(24);
    expect(columnAt(geometry, pane, pane.left + 24 * 15 - 1, 24)).toBe(1);
    expect(columnAt(geometry, pane, pane.left - 1, 24)).toBeNull();
  });
});

/** The working sheet of a colourway as a PDF. */
import type { Project } from "../document/project.ts";
import { amountsOf } from "../plan/amounts.ts";
import type { Page, Paper } from "../print/page.ts";
import { pdfOfPages, type SheetFonts } from "../print/pdf.ts";
import { workingSheet } from "../print/workingSheet.ts";
import { colourwayOf } from "./parts.ts";
import { yarnSettings } from "./yarnSettings.ts";

export interface SheetOptions {
  readonly colourway?: string | undefined;
  readonly size?: string | undefined;
  readonly paper?: Paper | undefined;
  /** Greys and marks only. */
  readonly mono?: boolean | undefined;
}

/** The sheet's pages as drawings, for a screen or a PDF. */
export function sheetPages(project: Project, { colourway: id, size, paper, mono }: SheetOptions = {}): Page[] {
  const { pattern, yarns, name } = project;
  const colourway = colourwayOf(project, id);
  const amounts = amountsOf({ pattern, yarns, colourway, size, settings: yarnSettings(project) });
  const { floatCm, heldLow } = project.knitting ?? {};
  return workingSheet({ name, pattern, yarns, colourway, amounts, size, paper, mono, floatCm, heldLow });
}

/** @param fonts bytes of the sheet's own typeface, which the shells bring */
export async function sheetOfProject(
  project: Project,
  { fonts, ...options }: SheetOptions & { readonly fonts: SheetFonts },
): Promise<{ bytes: Uint8Array; pages: number }> {
  const pages = sheetPages(project, options);
  const { name } = colourwayOf(project, options.colourway);
  return {
    bytes: await pdfOfPages(pages, { fonts, title: [project.name, name].filter(Boolean).join(": ") }),
    pages: pages.length,
  };
}

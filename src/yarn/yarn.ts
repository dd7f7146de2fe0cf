/** A yarn one can hold: its shade, thickness, lots and flecks. */
import type { Lab } from "../colour/lab.ts";
import { mixLab } from "../colour/mixing.ts";
import { labOfShade, type Shade } from "../colour/shade.ts";

export interface Lot {
  id: string;
  /** The dye lot as printed on the band. */
  lot?: string;
  grams?: number;
  /** Put on the scales, rather than read off the band. */
  weighed?: boolean;
}

export interface Fleck {
  shade: Shade;
  /** Part of the yarn's surface, 0 to 1. */
  share: number;
  /** Length of yarn over which it lasts before the next colour, mm: tweed a few, a variegated yarn many. */
  lengthMm?: number;
}

export interface Yarn {
  id: string;
  name: string;
  shade?: Shade;
  metresPer100g?: number;
  lots?: Lot[];
  /** Read as one lot where there are no lots. */
  grams?: number;
  flecks?: Fleck[];
  maker?: string;
  fibre?: string;
  note?: string;
  /** Strands twisted together; says nothing of thickness. */
  plies?: number;
  /** The council's category as the label has it, 0 lace to 7 jumbo. */
  weightClass?: number;
  /** Treated so that it does not felt in the machine; false: it does. */
  superwash?: boolean;
  handDyed?: boolean;
  /** The small picture of it that was kept, as a data address of a JPEG, PNG or WebP. */
  photo?: string;
  /** In a project: the id on her shelf of the yarn that this is a copy of. */
  shelf?: string;
}

/**
 * ΔE00 that holds the truth in 80 % of cases when nobody has said.
 * Our choice (vision.md F): a shade typed from a label or picked by eye is taken to be a little less sure than one photographed
 * beside a colour chart.
 */
export const DEFAULT_UNCERTAINTY = 5;

/** The shade that is seen from afar: as stated or photographed, else its flecks mixed in linear light. */
export function labOfYarn(yarn: Yarn): Lab {
  if (yarn.shade) return labOfShade(yarn.shade);
  return mixLab((yarn.flecks ?? []).map(({ shade, share }) => ({ lab: labOfShade(shade), share })));
}

/** ΔE00, 80 %. */
export const uncertaintyOfYarn = (yarn: Yarn): number => yarn.shade?.uncertainty ?? DEFAULT_UNCERTAINTY;

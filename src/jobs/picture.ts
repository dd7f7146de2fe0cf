/** The fabric as a picture: knitted, seen from a distance, in grey, or as a colour-deficient eye has it. */
import { assert } from "../base/assert.ts";
import { labFromLinear, linearFromLab } from "../colour/lab.ts";
import type { LinearRgb } from "../colour/srgb.ts";
import type { Project } from "../document/project.ts";
import { clothOf, clothOfPattern } from "../fabric/cloth.ts";
import { spectrumMemory, type SpectrumMemory } from "../fabric/contrast.ts";
import { renderCloth } from "../fabric/render.ts";
import { seenCloth, type SeenMemory } from "../fabric/seen.ts";
import { bytesFromRaster, type Raster } from "../raster/raster.ts";
import { deficientRaster, type Deficiency } from "../vision/deficiency.ts";
import { asSeenBy } from "./deficient.ts";
import { asKnitted } from "./knitted.ts";
import { colourwayOf, eyeOf, viewingOf } from "./parts.ts";

export interface PictureOptions {
  /** null: the pattern in its own colours. */
  readonly colourway?: string | null | undefined;
  /** The first chart where missing. */
  readonly chart?: string | undefined;
  /** Metres; without it the cloth as it lies in the hand. */
  readonly distance?: number | undefined;
  readonly light?: number | undefined;
  /** "grey": lightness alone. */
  readonly colours?: "full" | "grey" | undefined;
  readonly deficiency?: Deficiency | undefined;
  /** 0 to 1. */
  readonly severity?: number | undefined;
  readonly pixelsPerStitch?: number | undefined;
  readonly rows?: readonly [number, number] | undefined;
  readonly repeats?: number | undefined;
  /** What one picture as seen keeps for the next; a fresh memory where missing. */
  readonly memory?: SeenMemory | undefined;
  /** Spectra that her verdicts are weighed by; afresh where missing. */
  readonly spectra?: SpectrumMemory | undefined;
}

export interface ClothPicture {
  readonly width: number;
  readonly height: number;
  readonly millimetresPerPixel: number;
  readonly rgba: Uint8ClampedArray<ArrayBuffer>;
}

/** A stitch wide enough to show as one; our choice. */
const USUAL_PIXELS = 16;

/** The chart and colourway were checked by the caller. */
export function fabricOfProject(project: Project, options: PictureOptions = {}): ClothPicture {
  const { deficiency, severity = 1 } = options;
  // What is lost from afar is lost to that eye, so its colours come before the looking; at hand the whole picture is turned.
  const before = deficiency && options.distance !== undefined;
  const { pattern, yarns } = asKnitted(before ? asSeenBy(project, deficiency, severity) : project);
  const chart = options.chart === undefined ? pattern.charts[0] : pattern.charts.find(({ id }) => id === options.chart);
  assert(chart, "the chart exists");
  const cloth =
    options.colourway === null
      ? clothOfPattern({ chart, pattern })
      : clothOf({ chart, pattern, yarns, colourway: colourwayOf(project, options.colourway) });
  const rendering = {
    pixelsPerStitch: options.pixelsPerStitch ?? USUAL_PIXELS,
    repeatsAcross: options.repeats ?? 1,
    ...(options.rows ? { rows: options.rows } : {}),
  };
  const raster =
    options.distance === undefined
      ? renderCloth(cloth, rendering)
      : seenCloth(
          cloth,
          viewingOf(project, options),
          { ...rendering, threshold: thresholdOf(project, options.spectra ?? spectrumMemory()) },
          options.memory,
        );
  const toEye = deficiency && !before ? deficientRaster(raster, deficiency, severity) : raster;
  const shown = options.colours === "grey" ? inGrey(toEye) : toEye;
  const { width, height, millimetresPerPixel } = shown;
  assert(millimetresPerPixel !== undefined, "a rendered cloth knows its scale");
  return { width, height, millimetresPerPixel, rgba: bytesFromRaster(shown) };
}

/** Hers over the ordinary one, as her swatches tell. */
const thresholdOf = (project: Project, spectra: SpectrumMemory): number => Math.exp(eyeOf(project, spectra).theta);

/** Each pixel as the grey of its own L*. */
function inGrey(raster: Raster): Raster {
  const data = new Float32Array(raster.data.length);
  for (let at = 0; at < data.length; at += 3) {
    const pixel: LinearRgb = [raster.data[at]!, raster.data[at + 1]!, raster.data[at + 2]!];
    data.set(linearFromLab([labFromLinear(pixel)[0], 0, 0]), at);
  }
  return { ...raster, data };
}

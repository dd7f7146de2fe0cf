/** How far each band reads by a lamp, in a room and by a window, side by side. */
import type { ReadsInLight } from "../../jobs.ts";
import { table } from "../words.ts";
import { readsToWords } from "./check.ts";

export interface BandInLights {
  readonly band: string;
  readonly lights: readonly ReadsInLight[];
}

export function lightsReport(bands: readonly BandInLights[]): string {
  const lux = [...new Set(bands.flatMap(({ lights }) => lights.map((light) => light.lux)))];
  const columns = [{ heading: "band" }, ...lux.map((light) => ({ heading: `${light.toLocaleString("en-GB")} lx` }))];
  const lines = bands.map(({ band, lights }) => [
    band,
    ...lux.map((light) => readsToWords(lights.find((one) => one.lux === light) ?? null)),
  ]);
  return `Reads to, by a lamp of an evening, in a lit room, by a window by day\n${table(columns, lines)}`;
}

/** A place: somewhere in a chart or in the garment. */

/** Rows and rounds are inclusive, from 1; without them all of the chart or section. A chart place means every use of that chart. */
export type Place = { section: string; rounds?: [number, number] } | { chart: string; rows?: [number, number] };

/** Whether a chart row lies in a place that is named by chart. */
export function placeHoldsRow(place: Place, chart: string, row: number): boolean {
  if (!("chart" in place) || place.chart !== chart) return false;
  return !place.rows || (row >= place.rows[0] && row <= place.rows[1]);
}

/** Whether a round lies in a place: named by its section, or by the chart row that is knitted there. */
export function placeHoldsRound(
  place: Place,
  at: { section: string; round: number; chart: string; row: number },
): boolean {
  if ("chart" in place) return placeHoldsRow(place, at.chart, at.row);
  if (place.section !== at.section) return false;
  return !place.rounds || (at.round >= place.rounds[0] && at.round <= place.rounds[1]);
}

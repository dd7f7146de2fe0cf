/** What `cloth` tells people: the two contrasts and the factor, beside what is usual. */
import type { PlainSwatch } from "../../jobs.ts";
import { KNITTED_WOOL } from "../../vision/masking.ts";
import { paragraph, table } from "../words.ts";

export function clothReport({ texture, factor }: PlainSwatch): string {
  const three = (value: number): string => value.toFixed(3);
  const lines = [
    ["contrast of the stitch", three(texture.stitch), three(KNITTED_WOOL.stitch)],
    ["contrast of the rest, an octave", three(texture.floor), three(KNITTED_WOOL.floor)],
  ];
  const columns = [
    { heading: "texture", elastic: true },
    { heading: "here", align: "right" },
    { heading: "usual", align: "right" },
  ] as const;
  const hides =
    texture.stitch > KNITTED_WOOL.stitch
      ? "This cloth hides fine patterns more than is usual."
      : "This cloth hides fine patterns less than is usual.";
  const darker = factor
    ? `Cloth over yarn: about ${factor.value.toFixed(2)} of its light (${factor.low.toFixed(2)}–${factor.high.toFixed(2)}, for what a camera's tone curve and uneven light may do).`
    : "With --yarn x,y,w,h, the same yarn wound in the same photo, it also tells how much darker the cloth is.";
  return [
    table(columns, lines),
    paragraph(`${hides} The usual numbers are our choice: no published contrast of knit texture is known.`),
    paragraph(darker),
  ].join("\n\n");
}

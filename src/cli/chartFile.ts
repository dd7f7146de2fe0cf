/** Reads the charts of a file, whatever kind of file it is. */
import type { ReadCharts } from "../intake/readChart.ts";
import { readChartPicture } from "../intake/chartPicture.ts";
import { readChartText } from "../intake/chartText.ts";
import { readBytes, textOfBytes } from "./files.ts";
import { EXIT, Refusal } from "./io.ts";
import { decodePixels, kindOfFile } from "./pictures.ts";
import { only } from "./projectFile.ts";

const READABLE = "Charts are read from text and from pictures in PNG, JPEG, WebP or AVIF";

/** Refuses with 66 or 65; a picture's problems come along. `colours` is how many a picture has, where she knows. */
export async function readChartFile(path: string, colours: number | undefined): Promise<ReadCharts> {
  const bytes = await readBytes(path);
  switch (kindOfFile(bytes)) {
    case "picture":
      return readChartPicture(await decodePixels(path, bytes), only({ colours }));
    case "text":
      return readChartText(textOfBytes(bytes));
    case "pdf":
      throw new Refusal(
        EXIT.badInput,
        `${path} is a PDF file. ${READABLE}: save the page with the chart as a picture.`,
      );
    case "svg":
      throw new Refusal(EXIT.badInput, `${path} is an SVG drawing. ${READABLE}: save the drawing as PNG.`);
    case "web page":
      throw new Refusal(EXIT.badInput, `${path} is a web page. ${READABLE}: save the chart's picture alone.`);
    case "nothing":
      throw new Refusal(EXIT.badInput, `${path} is empty. ${READABLE}.`);
    case "other picture":
      throw new Refusal(EXIT.badInput, `${path} is a picture of another kind. ${READABLE}: save it as PNG.`);
  }
}

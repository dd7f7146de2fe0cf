/** Draws the gallery anew: `npx vite-node test/gallery/draw.ts`. Look at every picture before keeping it. */
import { FIGURES } from "./figures.ts";
import { pictureFile, writePicture } from "./compare.ts";

for (const [name, draw] of Object.entries(FIGURES)) await writePicture(pictureFile(name), draw());

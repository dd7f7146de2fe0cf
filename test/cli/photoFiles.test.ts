/** The command line reads the same yarns out of every kind of picture file, and refuses what is none with a sentence. */
import { describe, expect, test } from "vitest";
import { decodePicture, kindOfFile } from "../../src/cli/pictures.ts";
import { deltaE2000 } from "../../src/colour/difference.ts";
import { labFromLinear } from "../../src/colour/lab.ts";
import { meanColour } from "../../src/raster/raster.ts";
import { BALLS, PHOTO_SIZE, photoFiles, refusedFiles } from "../intake/photoFiles.ts";

describe("photographs on the command line", async () => {
  const files = await photoFiles();
  const plain = await decodePicture("plain.png", files[0]!.buffer);
  test.each(files)("$name", async ({ name, buffer, isGrey }) => {
    expect(kindOfFile(buffer)).toBe("picture");
    const picture = await decodePicture(name, buffer);
    expect([picture.width, picture.height]).toEqual([PHOTO_SIZE.width, PHOTO_SIZE.height]);
    for (const { box } of BALLS) {
      const [lab, expected] = [picture, plain].map((one) => labFromLinear(meanColour(one, box))) as [never, never];
      if (!isGrey) expect(deltaE2000(lab, expected)).toBeLessThan(1);
      else {
        expect(Math.hypot(lab[1], lab[2])).toBeLessThan(0.5);
        expect(Math.abs(lab[0] - expected[0])).toBeLessThan(3);
      }
    }
  });

  test.each(refusedFiles())("$name is refused", async ({ name, buffer }) => {
    if (kindOfFile(buffer) === "picture")
      await expect(decodePicture(name, buffer)).rejects.toThrow(/Save it again as PNG|PNG/);
    else expect(kindOfFile(buffer)).not.toBe("picture");
  });
});

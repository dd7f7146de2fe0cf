/** The working sheet's typeface, carried inside the program so that the sheet needs no file beside it. */
import type { SheetFonts } from "../print/pdf.ts";

/** Read only when a sheet is made. */
export async function sheetFonts(): Promise<SheetFonts> {
  const [regular, bold] = await Promise.all([
    import("../print/fonts/NotoSans-Regular.ttf?inline"),
    import("../print/fonts/NotoSans-Bold.ttf?inline"),
  ]);
  return { regular: bytesOf(regular.default), bold: bytesOf(bold.default) };
}

const bytesOf = (dataAddress: string): Uint8Array =>
  Buffer.from(dataAddress.slice(dataAddress.indexOf(",") + 1), "base64");

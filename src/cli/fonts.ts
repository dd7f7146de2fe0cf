/** The working sheet's typeface, folded into the program so that it needs no other file. */
import bold from "../print/fonts/NotoSans-Bold.ttf?inline";
import regular from "../print/fonts/NotoSans-Regular.ttf?inline";

export const sheetFonts = () => ({ regular: bytesOf(regular), bold: bytesOf(bold) });

const bytesOf = (dataUrl: string): Uint8Array => Buffer.from(dataUrl.slice(dataUrl.indexOf(",") + 1), "base64");

/** What a texture hides: a cloth's own light–dark relief raises the contrast that a pattern needs to be seen on it. */
import { parametersAt, sensitivitySquared } from "./contrastSensitivity.ts";

/** Contrasts of the surface itself, as root mean squares of luminance over its mean. */
export interface Texture {
  /** At one cycle per element of the texture (one stitch). */
  readonly stitch: number;
  /** At all frequencies: unevenness and fuzz. */
  readonly floor: number;
  /** Strength of the stitch component; 0 leaves the floor alone. */
  readonly strength: number;
}

/**
 * Hand-knit wool. Birthplace: vision.md B7, our choice, anchored on the trade's rule of thumb for value differences (common
 * practice, no source). No published contrast of knit texture is known.
 */
export const KNITTED_WOOL: Texture = { stitch: 0.12, floor: 0.025, strength: 1 };

/** No texture at all: the upper bound of what could be seen. */
export const SMOOTH_PAPER: Texture = { stitch: 0, floor: 0, strength: 0 };

/** The masking at one frequency under fixed light and distance, T(f)² of vision.md B7. */
export type Mask = (log2Frequency: number, sensitivitySquaredThere: number) => number;

/**
 * T(f)² = 2 (k c_t S_A(f_t))² exp(−(log2 f/f_t)²) + 2 (c_f S_A(f))².
 * Log-Gaussian tuning of one octave: Serrano-Pedraza & Sierra-Vázquez 2006/2014; noise adds in power.
 * @param textureFrequency cycles per degree of the texture's element; not cut where patterns are
 */
export function maskOf(texture: Texture, textureFrequency: number, luminance: number, area: number): Mask {
  const lightDark = parametersAt("lightDark", luminance);
  const atTexture = sensitivitySquared(lightDark, textureFrequency, Math.log10(textureFrequency), area);
  const stitchPower = 2 * (texture.strength * texture.stitch) ** 2 * atTexture;
  const floorPower = 2 * texture.floor ** 2;
  const log2Texture = Math.log2(textureFrequency);
  return (log2Frequency, sensitivitySquaredThere) => {
    const octaves = log2Frequency - log2Texture;
    return stitchPower * Math.exp(-octaves * octaves) + floorPower * sensitivitySquaredThere;
  };
}

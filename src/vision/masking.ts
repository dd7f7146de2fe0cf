/** What a texture hides: a cloth's own light–dark relief raises the contrast that a pattern needs to be seen on it. */
import { sensitivitySquared, type Tuned } from "./contrastSensitivity.ts";

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

/** What of the masking light changes: T(f)² = `stitchPower` · `tuning(f)` + `floorPower` · S_A(f)², as in vision.md B7. */
export interface Mask {
  readonly stitchPower: number;
  readonly floorPower: number;
}

/**
 * T(f)² = 2 (k c_t S_A(f_t))² exp(−(log2 f/f_t)²) + 2 (c_f S_A(f))².
 * @param textureFrequency cycles per degree of the texture's element; not cut where patterns are
 * @param lightDark the light–dark channel under the light in question
 */
export function maskOf(texture: Texture, textureFrequency: number, lightDark: Tuned, area: number): Mask {
  const atTexture = sensitivitySquared(lightDark, textureFrequency, Math.log10(textureFrequency), area);
  return {
    stitchPower: 2 * (texture.strength * texture.stitch) ** 2 * atTexture,
    floorPower: 2 * texture.floor ** 2,
  };
}

/** Log-Gaussian tuning of one octave about the texture: Serrano-Pedraza & Sierra-Vázquez 2006/2014; noise adds in power. */
export const maskTuning = (frequency: number, textureFrequency: number): number =>
  Math.exp(-(Math.log2(frequency / textureFrequency) ** 2));

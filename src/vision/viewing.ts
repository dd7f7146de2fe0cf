/** Viewing geometry and light: how large a millimetre of cloth is to the eye, and what the eye is adapted to. */

/** Millimetres of cloth that fill one degree of the eye's field at a distance. */
export const millimetresPerDegree = (distanceMm: number): number => 2 * distanceMm * Math.tan(Math.PI / 360);

/** The distance in mm at which one degree covers so many millimetres. */
export const distanceForDegree = (mmPerDegree: number): number => mmPerDegree / (2 * Math.tan(Math.PI / 360));

/**
 * Stray light and adaptation to the room, as a part of white's luminance. Birthplace: vision.md B1, our choice:
 * with it a step of L* is worth the same within ±13 % from L* 20 to 80.
 */
export const ROOM_VEIL = 0.05;

/** Luminance in cd/m² that the eye is adapted to: a matt surface of mean luminance factor `meanY` (0 to 1) under `lux`. */
export const adaptingLuminance = (lux: number, meanY: number, veil: number): number => (lux * (meanY + veil)) / Math.PI;

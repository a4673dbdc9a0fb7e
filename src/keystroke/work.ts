import type { Profile } from "./profile.js";
import { interpolate } from "./profile.js";

/** 1 cN·mm is 0.01 mJ. */
export const millijoulePerCnMm = 0.01;

/** Area under a stroke, with what its uncertainty needs. */
export interface Area {
  /** Integral of force over displacement, cN·mm. */
  readonly areaCnMm: number;
  /** Root of the sum of squared trapezoid weights, mm: times the noise of one position, that of the area. */
  readonly weightMm: number;
}

/**
 * Area under a profile from one place to another by the trapezoid rule, with interpolated ends; 0 where the second place
 * does not lie beyond the first.
 * @param profile at least one position; outside its positions the end forces hold
 */
export function areaUnder(profile: Profile, fromMm: number, toMm: number): Area {
  if (!(toMm > fromMm)) return { areaCnMm: 0, weightMm: 0 };
  const { xMm, forceCn } = profile;
  let areaCnMm = 0;
  let squares = 0;
  let x0 = fromMm;
  let f0 = interpolate(profile, fromMm);
  let before = 0;
  const step = (x1: number, f1: number): void => {
    const width = x1 - x0;
    areaCnMm += (width * (f0 + f1)) / 2;
    squares += ((before + width) / 2) ** 2;
    before = width;
    x0 = x1;
    f0 = f1;
  };
  for (let i = 0; i < xMm.length; i++) if (xMm[i]! > fromMm && xMm[i]! < toMm) step(xMm[i]!, forceCn[i]!);
  step(toMm, interpolate(profile, toMm));
  return { areaCnMm, weightMm: Math.sqrt(squares + (before / 2) ** 2) };
}

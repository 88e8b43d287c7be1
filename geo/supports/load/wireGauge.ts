const INCH_MM = 25.4
const POUND_FORCE_N = 4.4482216152605

/** Diameters of steel wire by gauge, inches (Washburn & Moen; 12½ from ASTM A641, from memory). */
const DIAMETER_IN: Readonly<Record<string, number>> = {
  '9': 0.1483,
  '12': 0.1055,
  '12.5': 0.099,
  '13': 0.0915,
  '14': 0.08,
  '17': 0.054,
}

/** High-tensile wire: 170 ksi. */
const HIGH_TENSILE_MPA = 170 * 6.894757293168
/** Low-carbon wire: 12½ gauge breaks at 460 lb. */
const LOW_CARBON_MPA = (460 * POUND_FORCE_N) / ((Math.PI / 4) * (0.099 * INCH_MM) ** 2)

/** Thickness and breaking stress of a wire as its name tells them (`wire, 12½ gauge high tensile`, `2.5 mm`); null where it does not. */
export function wireByName(name: string): { readonly diameterMm: number | null; readonly strengthMPa: number } {
  const plain = name.replace('½', '.5').replace(/(\d) 1\/2/, '$1.5')
  const [, gauge] = /(\d+(?:\.5)?)[ -]?(?:gauge|ga)\b/i.exec(plain) ?? []
  const [, mm] = /(\d+(?:\.\d+)?) ?mm\b/i.exec(plain) ?? []
  const inches = gauge === undefined ? undefined : DIAMETER_IN[gauge]
  return {
    diameterMm: inches !== undefined ? inches * INCH_MM : mm === undefined ? null : Number(mm),
    strengthMPa: /high[- ]?tensile/i.test(name) ? HIGH_TENSILE_MPA : LOW_CARBON_MPA,
  }
}

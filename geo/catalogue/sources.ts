/**
 * Where the catalogue's values come from, with how each was had: "read" in the source, "through a copy" of it, or "from
 * memory", not confirmed.
 */
export const MEMORY = 'from memory, not confirmed'
export const PRACTICE = 'common practice, from memory'

export const LISTED_SENSITIVE =
  'listed as sensitive: Morton Arboretum; Univ. of Wisconsin–Madison XHT1017 (through a copy). The evidence is disputed'
export const LISTED_TOLERANT =
  'listed as tolerant: Morton Arboretum; Univ. of Wisconsin–Madison XHT1017 (through a copy). The evidence is disputed'
export const ON_NO_LIST = 'on no list found'

/** UConn IPM, crop rotation: years that a soil-borne disease asks for (read). */
export const uconn = (disease: string) => `${disease}; UConn IPM, crop rotation (read)`
export const COMMON_MINIMUM = 'the low end of 3–4 years, a common minimum; UConn IPM, crop rotation (read)'
export const FAMILY_DEFAULT = 'usual for its family, from memory'

export const NEW_ENGLAND = 'low to excellent; New England Vegetable Guide, table 15 (read)'
export const TENDRIL = 'climbs by tendril (through a copy)'
export const TWINES = 'twines (through a copy)'
export const TIED = 'does not hold itself: tied or woven (through a copy)'
export const NOT_HELD_UP = 'not held up as a rule; common practice, from memory'
export const TOUCHES = 'what is eaten lies in or on the soil, or is splashed by it; our reading of 7 CFR 205.203(c)'
export const CLEAR_OF_SOIL = 'what is eaten hangs or stands clear of the soil; our reading of 7 CFR 205.203(c)'

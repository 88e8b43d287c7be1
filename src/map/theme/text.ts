/** Fonts of the map's words: field names in the serif, all else in the sans; the device's own where a letter is not bundled. */
export const SERIF: string[] = ['Selion serif', 'serif']
export const SANS: string[] = ['Selion sans', 'sans-serif']

import { DAY } from '../../map/theme/palette.ts'

/** Colours of what stands about a map on paper: the day's. White is left to the paper. */
export const INK = DAY.ink
export const SOFT = DAY.soft
export const RULE = '#a9a391'
export const MADDER = DAY.madder
export const WASH = '#f2ecdd'

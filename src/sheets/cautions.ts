import type { SheetName } from './names.ts'

const POSTS =
  'Before driving posts, however shallow, ask the local buried-services line; give it two or three working days.'
const TIMBER = 'Treated timber in contact with soil may be barred where food is grown under certification.'
const WIRE = 'Tensioned wire recoils: wear eye protection and gloves, and never go beyond its maker’s tension.'
const JUGLONE = 'Evidence on juglone is disputed: distances and classes are guidance, never a verdict.'

/** What stands on a sheet and prints with it, where work there can hurt or figures can mislead. */
export const CAUTIONS: Readonly<Record<SheetName, readonly string[]>> = {
  ground: [JUGLONE],
  growing: [JUGLONE, 'Raw manure and harvest intervals follow the local food-safety rule.'],
  supports: [
    POSTS,
    WIRE,
    'A structure that people or buildings depend on is for licensed practice and local codes.',
    TIMBER,
  ],
  picking: ['Raw manure and harvest intervals follow the local food-safety rule.'],
  yield: [JUGLONE, 'A low figure shows a place to look at, not its cause.'],
  siting: [POSTS, WIRE, TIMBER, JUGLONE],
  stock: [],
}

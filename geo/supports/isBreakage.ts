/** What may be wrong with a part, in the forms that people write. */
const WRONG = [
  'broke|broken|breaks?|breaking|breakages?|snap|snaps|snapped|snapping|parted|burst|frayed|gave way',
  'rip|rips|ripped|ripping|tear|tears|tore|torn',
  'lean|leans|leaning|leaned|leant|tilts?|tilted|tilting|crooked|askew|slanting|bent|buckled|fallen|fell|collapsed',
  'slack|slackened|sag|sags|sagged|sagging|loose|loosened|undone',
  'split|splits|splitting|splintered|cracks?|cracked|cracking|rotten|rotted|rotting|rusted',
].join('|')

/** Parts of a support. Pole and string beans, wireworms and lines of water are none. */
const PART = [
  '(?:pole|string|wire)(?! (?:beans?|worms?)\\b)|(?:poles|strings|wires|twines?|cords?)',
  '(?<!(?:water|drip|irrigation|hose|clothes) )lines?',
  '(?:end ?)?posts?|stakes?|pickets?|braces?|anchors?|strainers?|staples?|clips?|ties?',
  'nets?|netting|mesh|panels?|trellis(?:es)?|wirework|supports?|a frames?',
].join('|')

/** Up to three words between, none of which says that it is not so, or that the part only stands near. */
const BETWEEN = "(?: (?!(?:no|not|never|beside|by|near|along|around|under|behind|next|from)\\b)[\\p{L}\\d’']+){0,3} "
const NOT_DENIED = '(?<!\\b(?:no|not|never) )'

const WRONG_PART = new RegExp(
  [
    `${NOT_DENIED}\\b(?:${WRONG})${BETWEEN}(?:${PART})\\b`,
    `${NOT_DENIED}\\b(?:${PART})${BETWEEN}(?:${WRONG})\\b`,
    '\\bholes? in (?:the |a )?(?:nets?|netting|mesh)\\b',
    '\\blean(?:s|ing|ed|t)? ends?\\b|\\bends? lean(?:s|ing|ed|t)?\\b',
  ].join('|'),
  'u',
)
const WRONG_ALONE = new RegExp(`^(?:(?:a|the|it|is|was|something) )*(?:${WRONG})$`)
const ANY_PART = new RegExp(`\\b(?:${PART})\\b`)
const OF_GROUND = /\b(?:soil|ground|earth|clay|beds?|paths?|fruits?|stems?|bark)\b/

/**
 * Whether an observation tells of something broken about a support: its kind names a part and what is wrong with it,
 * either first (`broken wire`, `post is leaning`, `net ripped`). Where the kind only says what is wrong (`crack`), its note
 * tells whether of a part: `Line post split at ground` is, `Soil cracked` is not, and nothing told is not.
 */
export function isBreakage(kind: string, note: string | null): boolean {
  const said = plain(kind)
  if (WRONG_PART.test(said)) return true
  if (note === null || !WRONG_ALONE.test(said)) return false
  const more = plain(note)
  return WRONG_PART.test(more) || (ANY_PART.test(more) && !OF_GROUND.test(more))
}

/** Small letters, hyphens and underlines as blanks, one blank at a time; other marks stand apart so that they divide. */
const plain = (text: string) =>
  text
    .toLowerCase()
    .replace(/[-_‐–]+/g, ' ')
    .replace(/([,;.:!?()/])/g, ' $1 ')
    .replace(/\s+/g, ' ')
    .trim()

/** What a part does in a run. */
export const PART_KINDS = ['post', 'end post', 'brace', 'wire', 'string', 'net', 'panel', 'tie', 'other'] as const
export type PartKind = (typeof PART_KINDS)[number]

/** Words that tell a part's kind where it is not given, the first that fits. */
const WORDS: readonly (readonly [RegExp, PartKind])[] = [
  [/\b(brace|anchor|stay)s?\b/i, 'brace'],
  [/\bend[- ]?posts?\b/i, 'end post'],
  [/\bridge\b/i, 'other'],
  [/\b(post|stake|pole|picket)s?\b/i, 'post'],
  [/\bwire\b/i, 'wire'],
  [/\bpanels?\b|\bmesh\b/i, 'panel'],
  [/\bnet(ting)?\b/i, 'net'],
  [/\b(string|twine|cord)\b/i, 'string'],
  [/\b(tie|clip|staple)s?\b/i, 'tie'],
]

/** What a part is: as its record says, else by the words of its name. */
export function partKindOf(part: string, kind: PartKind | null): PartKind {
  return kind ?? WORDS.find(([words]) => words.test(part))?.[1] ?? 'other'
}

/** Posts stand in the ground along the run: they are drawn on the map. */
export const standsInGround = (kind: PartKind): boolean => kind === 'post' || kind === 'end post'

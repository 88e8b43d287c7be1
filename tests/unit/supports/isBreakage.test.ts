import { describe, expect, it } from 'vitest'
import { isBreakage } from '../../../geo/supports/isBreakage.ts'

// Kinds as people write them, told apart by hand.
describe('what counts as seen broken', () => {
  it.each([
    'broken wire',
    'wire broken',
    'Wire is broken',
    'wire snapped',
    'Snapped top wire',
    'the wire has snapped again',
    'wires slack',
    'slack wire',
    'string broken',
    'broken string',
    'broken strings',
    'twine parted',
    'broken line',
    'line broke',
    'line sagging',
    'broken net',
    'net ripped',
    'ripped netting',
    'net torn',
    'torn net',
    'tear in net',
    'hole in the net',
    'netting fallen',
    'leaning post',
    'post leaning',
    'Posts lean',
    'post is leaning',
    'leaning-post',
    'leaning_post',
    'leaning end post',
    'end-post leans',
    'end leaning',
    'leant stake',
    'tilted pole',
    'post askew',
    'rotten post',
    'post rotted',
    'cracked post',
    'post cracked',
    'split stake',
    'loose clip',
    'clips loose',
    'broken pole',
    'bent panel',
    'trellis collapsed',
    'broken support',
  ])('is “%s”', (kind) => {
    expect(isBreakage(kind, null)).toBe(true)
  })

  it.each([
    'disease',
    'wet spot',
    'broken branch',
    'torn leaves',
    'split fruit',
    'cracked fruit',
    'soil cracked',
    'leaning tree',
    'broken pole beans',
    'pole beans leaning',
    'string bean split',
    'wire worm',
    'post holes dug',
    'net left up',
    'wire tightened',
    'broken water line',
    'drip line broken',
    'wire not broken',
    'no broken wires',
    'stem broken by the post',
    'leaves torn, new post set',
  ])('is not “%s”', (kind) => {
    expect(isBreakage(kind, null)).toBe(false)
  })

  it.each([
    ['crack', 'Line post split at ground', true],
    ['crack', 'in the end post', true],
    ['broken', 'Third string', true],
    ['crack', 'Soil cracked, two fingers wide', false],
    ['crack', 'Soil cracked beside the post', false],
    ['crack', 'in the bed, by the post', false],
    ['crack', null, false],
    ['poor growth', 'By the broken wire', false],
    ['broken branch', 'Fell on the net', false],
  ] as const)('of “%s”, noted “%s”: %s', (kind, note, is) => {
    expect(isBreakage(kind, note)).toBe(is)
  })
})

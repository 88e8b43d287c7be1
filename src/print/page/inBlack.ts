import type { Fill, Mark } from '../marks.ts'

/** How dark a colour looks, 0 to 1 (ITU-R BT.709's luma). */
function luma(hex: string): number {
  const channel = (i: number) => Number.parseInt(hex.slice(i, i + 2), 16) / 255
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
}

const grey = (share: number) => {
  const two = Math.round(share * 255)
    .toString(16)
    .padStart(2, '0')
  return `#${two}${two}${two}`
}

/** What is meant to be read, in black or its own grey: madder, tree and ink are all black. */
const inked = (colour: string) => (luma(colour) < 0.55 ? '#000000' : grey(luma(colour)))
/** Grounds, in grey; paper and what is nearly so, in white, to spare toner. */
const ground = (colour: string) => {
  const dark = luma(colour)
  return dark > 0.88 ? '#ffffff' : dark < 0.3 ? '#000000' : grey(dark)
}

/** The same page for black toner alone: dashes, hatches and the thickness of lines say what colour said. */
export function inBlack(marks: readonly Mark[]): Mark[] {
  const filled = (fill: Fill | null): Fill | null => fill && { ...fill, colour: ground(fill.colour) }
  return marks.map((mark): Mark => {
    switch (mark.draw) {
      case 'path':
        return {
          ...mark,
          fill: filled(mark.fill),
          stroke: mark.stroke && { ...mark.stroke, colour: inked(mark.stroke.colour) },
        }
      case 'text':
        return {
          ...mark,
          colour: inked(mark.colour),
          halo: mark.halo && { ...mark.halo, colour: ground(mark.halo.colour) },
        }
      case 'group':
        return { ...mark, marks: inBlack(mark.marks) }
      default:
        return mark
    }
  })
}

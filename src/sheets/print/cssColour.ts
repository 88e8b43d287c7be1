import type { Fill } from '../../print/marks.ts'

/** A colour in any of CSS's ways of writing one, as the browser draws it; null for none at all. */
export function cssColour(colour: string): Fill | null {
  if (colour === 'none' || colour === '' || colour === 'transparent') return null
  const known = asked.get(colour)
  if (known) return known
  const canvas = document.createElement('canvas')
  canvas.width = 1
  canvas.height = 1
  const pen = canvas.getContext('2d')!
  pen.fillStyle = colour
  pen.fillRect(0, 0, 1, 1)
  const [r, g, b, a] = pen.getImageData(0, 0, 1, 1).data
  const two = (n: number) => n.toString(16).padStart(2, '0')
  const found = { colour: `#${two(r!)}${two(g!)}${two(b!)}`, opacity: a! / 255 }
  asked.set(colour, found)
  return found
}
const asked = new Map<string, Fill>()

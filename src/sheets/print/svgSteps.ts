import type { Step } from '../../print/marks.ts'

/**
 * The outline that an SVG path tells: moves, lines, level and upright lines, cubics, closing;
 * absolute and relative. Throws on other commands: marks of legends and charts have none.
 */
export function svgSteps(d: string): Step[] {
  const tokens = d.match(/[a-z]|-?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?/gi) ?? []
  const steps: Step[] = []
  let [x, y, i] = [0, 0, 0]
  let command = ''
  const number = () => Number(tokens[i++])
  while (i < tokens.length) {
    if (/^[a-z]$/i.test(tokens[i]!)) command = tokens[i++]!
    const relative = command === command.toLowerCase()
    const [fromX, fromY] = relative ? [x, y] : [0, 0]
    switch (command.toUpperCase()) {
      case 'M':
      case 'L':
        ;[x, y] = [fromX + number(), fromY + number()]
        steps.push([command.toUpperCase() as 'M' | 'L', x, y])
        // Further pairs after a move are lines (SVG 2, 9.3.3).
        if (command === 'M') command = 'L'
        if (command === 'm') command = 'l'
        break
      case 'H':
        x = fromX + number()
        steps.push(['L', x, y])
        break
      case 'V':
        y = fromY + number()
        steps.push(['L', x, y])
        break
      case 'C': {
        const n = Array.from({ length: 6 }, (_, k) => (k % 2 === 0 ? fromX : fromY) + number())
        ;[x, y] = [n[4]!, n[5]!]
        steps.push(['C', ...(n as [number, number, number, number, number, number])])
        break
      }
      case 'Z':
        steps.push(['Z'])
        break
      default:
        throw new Error(`no way to draw the path command ${command} in ${d}`)
    }
  }
  return steps
}

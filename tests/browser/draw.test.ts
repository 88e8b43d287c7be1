import { describe } from 'vitest'
import { drawingPage } from './draw/drawingPage.ts'
import { drawsEveryKind } from './draw/everyKind.ts'
import { putsCornersDown } from './draw/putCorners.ts'
import { reshapes } from './draw/reshape.ts'
import { arranges } from './draw/together.ts'

describe('drawing', () => {
  // One page for all: making it takes longer than most of these tests.
  const on = drawingPage()
  putsCornersDown(on)
  drawsEveryKind(on)
  reshapes(on)
  arranges(on)
})

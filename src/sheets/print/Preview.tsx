import { useEffect, useRef } from 'preact/hooks'
import type { Page } from '../../print/marks.ts'
import type { Picture } from '../../print/paint/photo.ts'
import { toCanvas } from '../../print/paint/toCanvas.ts'
import type { Type } from '../../print/type/openFonts.ts'

interface Props {
  readonly page: Page
  readonly type: Type
  readonly pictures: ReadonlyMap<string, Picture>
  readonly label: string
}

/** Room for the line about the page, in pixels. */
const EDGE = 4

/** A page as it will be printed, as large as there is room. */
export function Preview({ page, type, pictures, label }: Props) {
  const frame = useRef<HTMLDivElement>(null)
  const canvas = useRef<HTMLCanvasElement>(null)
  useEffect(() => {
    const draw = () => {
      const [room, to] = [frame.current, canvas.current]
      if (!room || !to) return
      const perMm = Math.min((room.clientWidth - EDGE) / page.wideMm, (room.clientHeight - EDGE) / page.highMm)
      if (perMm <= 0) return
      const [wide, high] = [page.wideMm * perMm, page.highMm * perMm]
      to.style.width = `${wide}px`
      to.style.height = `${high}px`
      to.width = Math.round(wide * devicePixelRatio)
      to.height = Math.round(high * devicePixelRatio)
      const pen = to.getContext('2d')!
      pen.fillStyle = '#ffffff'
      pen.fillRect(0, 0, to.width, to.height)
      pen.scale(to.width / page.wideMm, to.height / page.highMm)
      toCanvas(pen, page.marks, type, pictures)
    }
    draw()
    const watch = new ResizeObserver(draw)
    watch.observe(frame.current!)
    return () => watch.disconnect()
  }, [page, type, pictures])
  return (
    <div class="print-preview" ref={frame}>
      <canvas ref={canvas} role="img" aria-label={label} />
    </div>
  )
}

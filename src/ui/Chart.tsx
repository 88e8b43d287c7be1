import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks'

interface Props<C> {
  readonly chart: C
  /** Fetches what draws it, as an SVG so many pixels wide; the same function at every turn. */
  readonly load: () => Promise<(chart: C, widthPx: number) => Element>
}

/** A chart, drawn once its library is there. What it shows stands in words or as a table beside it, so it is not read out. */
export function Chart<C>({ chart, load }: Props<C>) {
  const frame = useRef<HTMLDivElement>(null)
  const [widthPx, setWidthPx] = useState(0)
  useLayoutEffect(() => {
    const element = frame.current!
    const measure = () => setWidthPx(Math.floor(element.clientWidth))
    measure()
    // What prints the sheet waits for what is to be drawn.
    if (element.clientWidth > 0) element.setAttribute('aria-busy', 'true')
    const watch = new ResizeObserver(measure)
    watch.observe(element)
    return () => watch.disconnect()
  }, [])
  useEffect(() => {
    if (widthPx === 0) return
    let gone = false
    void load().then((draw) => {
      if (gone || !frame.current) return
      frame.current.removeAttribute('aria-busy')
      frame.current.replaceChildren(draw(chart, widthPx))
    })
    return () => {
      gone = true
    }
  }, [chart, load, widthPx])
  return <div class="chart-frame" ref={frame} aria-hidden="true" />
}

import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks'
import type { ChartAsked } from './drawChart.ts'

/** A chart, drawn once its library is there. What it shows stands as a table beside it, so it is not read out. */
export function Chart({ chart }: { readonly chart: ChartAsked }) {
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
    void import('./drawChart.ts').then(({ drawChart }) => {
      if (gone || !frame.current) return
      frame.current.removeAttribute('aria-busy')
      frame.current.replaceChildren(drawChart(chart, widthPx))
    })
    return () => {
      gone = true
    }
  }, [chart, widthPx])
  return <div class="chart-frame" ref={frame} aria-hidden="true" />
}

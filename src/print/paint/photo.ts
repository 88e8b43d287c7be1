import type { At } from '../marks.ts'

type Pen = CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D

/** A photo decoded. */
export type Picture = ImageBitmap

/** Lays a photo by its four corners: as one piece where they make a parallelogram, else in small triangles. */
export function paintPhoto(pen: Pen, picture: Picture, corners: readonly [At, At, At, At], opacity: number): void {
  const { width, height } = picture
  const place = (u: number, v: number): At => {
    const [ul, ur, lr, ll] = corners
    const mix = (i: 0 | 1) => (1 - v) * ((1 - u) * ul[i] + u * ur[i]) + v * ((1 - u) * ll[i] + u * lr[i])
    return [mix(0), mix(1)]
  }
  const [ul, ur, lr, ll] = corners
  const off = Math.hypot(ul[0] + lr[0] - ur[0] - ll[0], ul[1] + lr[1] - ur[1] - ll[1])
  const parts = off < 0.05 ? 1 : 12
  pen.save()
  pen.globalAlpha = opacity
  for (let i = 0; i < parts; i += 1)
    for (let j = 0; j < parts; j += 1) {
      const [u0, u1, v0, v1] = [i / parts, (i + 1) / parts, j / parts, (j + 1) / parts]
      const [a, b, d] = [place(u0, v0), place(u1, v0), place(u0, v1)]
      pen.save()
      pen.transform(b[0] - a[0], b[1] - a[1], d[0] - a[0], d[1] - a[1], a[0], a[1])
      pen.drawImage(picture, u0 * width, v0 * height, (u1 - u0) * width, (v1 - v0) * height, 0, 0, 1, 1)
      pen.restore()
    }
  pen.restore()
}

/** What `measure` tells of a field on a day. Areas in m² and lengths in metres, in the farm's plane. */
export interface MeasuredField {
  readonly id: string
  readonly name: string
  readonly area_m2: number
  /** Beds there on the day, and their area. */
  readonly bed_count: number
  readonly bed_area_m2: number
  readonly row_m: number
  /** Support metres standing on the day, by the system's name; every system of the farm is named. */
  readonly support_m: Readonly<Record<string, number>>
  readonly climbing_m: number
  readonly held_m: number
  readonly unheld_m: number
}

/** What `measure` tells of a bed on a day. Length and bearing are of the long axis of its least rectangle, width is area over length. */
export interface MeasuredBed {
  readonly id: string
  readonly field: string
  readonly name: string
  readonly area_m2: number
  readonly length_m: number
  readonly width_m: number
  /** Degrees from the plane's north, clockwise, 0 to below 180. */
  readonly bearing_deg: number
  readonly row_m: number
  readonly support_m: number
  readonly climbing_m: number
  readonly unheld_m: number
}

export interface Measured {
  readonly fields: readonly MeasuredField[]
  readonly beds: readonly MeasuredBed[]
}

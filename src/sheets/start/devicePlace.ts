/** Where the device says that it is, as it would be typed: latitude, longitude. */
export function devicePlace(): Promise<{ ok: true; place: string } | { ok: false; why: string }> {
  if (!('geolocation' in navigator)) return Promise.resolve({ ok: false, why: 'This device tells no position.' })
  return new Promise((settle) => {
    navigator.geolocation.getCurrentPosition(
      ({ coords }) => settle({ ok: true, place: `${coords.latitude.toFixed(6)}, ${coords.longitude.toFixed(6)}` }),
      ({ message }) => settle({ ok: false, why: `The device did not tell its position. ${message}` }),
      { enableHighAccuracy: true, timeout: 20_000 },
    )
  })
}

import { expect, it } from 'vitest'
import { watchRoom } from '../../../src/desk/farm/roomWatch.ts'

it('refuses a step where there is no room, and looks behind the step before so that none need wait', async () => {
  let isRoom = true
  let nowMs = 0
  let looks = 0
  const room = watchRoom(
    async () => {
      looks++
      return isRoom
    },
    () => nowMs,
  )
  const isRefused = () =>
    room.forStep().then(
      () => false,
      (error: Error) => /no room/.test(error.message),
    )
  expect(await isRefused()).toBe(false)
  await room.look()
  expect(looks).toBe(2)
  nowMs += 29_000
  expect(await isRefused()).toBe(false)
  expect(looks).toBe(2)
  // What was seen holds for half a minute.
  nowMs += 2000
  expect(await isRefused()).toBe(false)
  expect(looks).toBe(3)
  isRoom = false
  const looking = room.look()
  expect(await isRefused()).toBe(true)
  await looking
  expect(await isRefused()).toBe(true)
  isRoom = true
  expect(await isRefused()).toBe(false)
})

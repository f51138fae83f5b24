import { InputError } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'

const message = (value: unknown, more = {}) => new InputError({ field: 'a.b', value, allowed: 'more', ...more }).message

describe('the one error', () => {
  it('has one grammar', () => {
    expect(message(-5, { unit: 'ohm', hint: 'Try 5' })).toBe('a.b = -5 ohm: allowed is more. Try 5')
    expect(message(7)).toBe('a.b = 7: allowed is more')
  })

  it('shows any value shortly, the unit beside numbers only', () => {
    expect(message('5 V', { unit: 'ohm' })).toBe('a.b = "5 V": allowed is more')
    expect(message('x'.repeat(60))).toContain(`"${'x'.repeat(60)}"`)
    expect(message('x'.repeat(61))).toContain(`"${'x'.repeat(57)}..."`)
    expect(message(-0)).toContain('= -0:')
    expect(message(undefined)).toContain('= nothing:')
    expect(message(null)).toContain('= null:')
    expect(message(true)).toContain('= true:')
    expect(message([1])).toContain('= a list:')
    expect(message({})).toContain('= an object:')
    expect(message(Symbol('s'))).toContain('= a symbol:')
  })

  it('keeps its parts as fields', () => {
    const error = new InputError({ field: 'f', value: 3, allowed: 'less' })
    expect(error).toMatchObject({ name: 'InputError', field: 'f', value: 3, unit: '', allowed: 'less', hint: '' })
    expect(error).toBeInstanceOf(Error)
  })
})

/** Unit of a difference: temperatures differ by kelvins. */
export const apart = (unit: string): string => (unit === 'degC' ? 'K' : unit)

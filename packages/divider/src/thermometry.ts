export interface Thermometry {
  readonly kind: string
}
export type ReadThermometry = Thermometry
export const readThermometry = (x: unknown) => x as Thermometry

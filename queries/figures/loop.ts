export const loopFigures = [] as const

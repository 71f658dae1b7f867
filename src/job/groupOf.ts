/** Group of an interface, which is felt as one: what stands before the point of its id.
 *  @example groupOf('socket.width') // => 'socket' */
export const groupOf = (id: string): string => id.split('.', 1)[0]!;

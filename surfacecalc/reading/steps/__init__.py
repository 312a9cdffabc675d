"""Steps of a finish schedule, each kind in a module of its own.

step        from a table to its step, by the word in `do`
stock       what steps may use, and how a step names it
shares      shares and other inputs that a step may leave out
work        hands-on time, waits and what is used up, the same in every step
"""

"""A test over many small cases in one go: a case each would cost more than what is tried in it."""

from collections.abc import Callable, Iterable
from functools import wraps
from inspect import signature

import pytest

from hemcalc.measure.errors import HemError


def for_each(names: str | tuple[str, ...], cases: Iterable) -> Callable[[Callable], Callable]:
    """Run a test for each of these cases, as `parametrize` does; all that fail are named at the end."""
    cases = list(cases)
    assert cases, "a test of no case can't fail"

    def of(case: object) -> dict[str, object]:
        return {names: case} if isinstance(names, str) else dict(zip(names, case, strict=True))

    def over(test: Callable) -> Callable:
        @wraps(test)
        def over_all(**fixtures: object) -> None:
            failed = []
            for case in cases:
                try:
                    test(**of(case), **fixtures)
                except (Exception, pytest.fail.Exception) as error:
                    error.add_note(f"in the case of {of(case)}")
                    failed.append(error)
            if failed:
                raise BaseExceptionGroup(f"{len(failed)} of {len(cases)} cases", failed)

        own = signature(test)
        others = [each for name, each in own.parameters.items() if name not in of(cases[0])]
        over_all.__signature__ = own.replace(parameters=others)
        return over_all

    return over


def held_to_its_limit(make: Callable, taken: object, refused: object, said: str) -> None:
    """What is at a limit is taken; what is just beyond it is refused, and the limit said."""
    make(taken)
    with pytest.raises(HemError) as caught:
        make(refused)
    assert said in str(caught.value)

"""Predictions in the store: kept only while their ball has not come."""

from sqlalchemy import Connection, RowMapping, func, insert, select

from loftwright.domain.prediction import Prediction, Rests
from loftwright.errors import ConflictError, InputError
from loftwright.store.base import Base
from loftwright.store.codec import (
    forecasts_of,
    forecasts_text,
    home_of,
    home_text,
    instant_of,
    instant_text,
)
from loftwright.store.schema import acts, fittings, predictions, shots
from loftwright.store.versions import must_be_there


class Predictions(Base):
    """The store's predictions."""

    def predict(self, fitting: str, prediction: Prediction) -> bool:
        """Keep what is predicted of the next ball and return whether it is new.

        What was predicted after the same entry with the same set-up stays as it is.

        Raises
        ------
        ConflictError
            If a ball came behind the entry that the prediction knows last.
        InputError
            If the record does not hold that entry.
        """
        row = {
            "fitting": fitting,
            "after": prediction.after,
            "set_up": prediction.set_up,
            "bay": prediction.bay,
            "device": prediction.device,
            "at": instant_text(prediction.at),
            "rests": prediction.rests.value,
            "home": home_text(prediction.home),
            "forecasts": forecasts_text(prediction.forecasts),
            "program": prediction.program,
        }
        with self.writing() as connection:
            must_be_there(connection, fittings.c.id, fitting, "fitting")
            _check_end(connection, fitting, prediction.after)
            same = (predictions.c.fitting == fitting) & (predictions.c.after == prediction.after)
            known = select(predictions.c.came).where(
                same, predictions.c.set_up == prediction.set_up
            )
            if connection.scalar(known) is not None:
                return False
            connection.execute(insert(predictions).values(row))
        return True

    def predictions(self, fitting: str) -> tuple[Prediction, ...]:
        """Return what was predicted in a fitting, in the order in which it was."""
        asked = (
            select(predictions)
            .where(predictions.c.fitting == fitting)
            .order_by(predictions.c.came)
        )
        with self.reading() as connection:
            must_be_there(connection, fittings.c.id, fitting, "fitting")
            return tuple(_prediction(row) for row in connection.execute(asked).mappings())


def _check_end(connection: Connection, fitting: str, after: int) -> None:
    """Refuse what the record does not hold, and what is no prediction any more."""
    told, ball = (
        connection.scalar(select(func.max(table.c.sequence)).where(table.c.fitting == fitting))
        or 0
        for table in (acts, shots)
    )
    if after > max(told, ball):
        raise InputError(
            f"the record ends at {max(told, ball)}, before {after}",
            place="after",
            mend="Predict from the record as it stands.",
        )
    if ball > after:
        raise ConflictError(
            f"the ball at {ball} came before this could be predicted",
            place="after",
            mend="A ball that was read is predicted no more; predict the next one.",
        )


def _prediction(row: RowMapping) -> Prediction:
    return Prediction(
        after=row["after"],
        set_up=row["set_up"],
        bay=row["bay"],
        device=row["device"],
        at=instant_of(row["at"]),
        rests=Rests(row["rests"]),
        home=home_of(row["home"]),
        forecasts=forecasts_of(row["forecasts"]),
        program=row["program"],
    )

"""What every model of the project file has in common."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict

__all__ = ["Model"]


class Model(BaseModel):
    """Frozen; refuses names it does not know."""

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)

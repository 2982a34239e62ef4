"""What a room is used for, told by its name: whole words of six languages, and only what a design asks for."""

from __future__ import annotations

import re
import unicodedata

__all__ = ["is_bathroom"]


def _words(name: str) -> list[str]:
    """Words in small letters without accents; ``MasterBath`` is two."""
    parted = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", name)
    plain = "".join(
        letter for letter in unicodedata.normalize("NFKD", parted) if not unicodedata.combining(letter)
    )
    return re.findall(r"[^\W\d_]+", plain.casefold())


_BATHROOMS = frozenset(
    _words(
        "bath bathroom baths shower showers ensuite "
        "bad badezimmer badraum dusche duschbad duschraum duschen elternbad gästebad gaestebad hauptbad kinderbad "
        "bain bains douche douches sdb sde "
        "baño baños ducha duchas "
        "bagno bagni bagnetto doccia docce "
        "badkamer badkamers doucheruimte doucheruimtes"
    )
)
"""Of rooms with a bath or a shower in English, German, French, Spanish, Italian and Dutch. A toilet alone is none: the
floor of bathrooms may be warmer (EN 1264-2) because people go barefoot there."""
_PHRASES = ("en suite", "salle d eau")
_OTHERS = frozenset(
    _words(
        "hall hallway corridor landing lobby store storage cupboard utility laundry plant kitchen pantry living dining "
        "bedroom bed dressing sauna pool shaft duct "
        "flur diele gang vorraum lager abstellraum kammer küche kueche hwr technik technikraum schlafzimmer "
        "wohnzimmer ankleide schacht "
        "couloir entrée palier rangement cellier cuisine buanderie chambre salon séjour placard gaine "
        "pasillo recibidor vestíbulo almacén trastero cocina lavadero dormitorio salón comedor "
        "corridoio ingresso disimpegno ripostiglio deposito cucina lavanderia camera soggiorno salotto cavedio "
        "overloop berging kast keuken bijkeuken wasruimte slaapkamer woonkamer"
    )
)
"""Of other rooms: a name with one of them beside that of a bathroom may mean the room before it."""


def is_bathroom(name: str) -> bool:
    """Whether a room with this name is a bathroom: its words say so, and none says that it is another room, too."""
    words = _words(name)
    text = f" {' '.join(words)} "
    named = not _BATHROOMS.isdisjoint(words) or any(f" {phrase} " in text for phrase in _PHRASES)
    return named and _OTHERS.isdisjoint(words)

#pragma once

#include "models/elastomer/relaxation.hpp"

/// Two rubbers measured in shear at 25 degC and 0.15 % strain, published as open data by
/// MarcusNi96/dma-prony-validation (commit 068d213); Prony series fitted to storage and loss.
namespace drumlin::tests {

/// EPDM of nominal 70 Shore A; valid from 4.5e-4 to 3e5 Hz.
inline models::PronySeries epdm() {
  return {.name = "EPDM 70",
          .relaxed = 2.044,
          .terms = {{1130, 0.3365},
                    {90.8, 0.4713},
                    {7.31, 0.6315},
                    {0.589, 0.7706},
                    {0.0475, 0.9105},
                    {3.82e-3, 0.9090},
                    {3.08e-4, 0.9419},
                    {2.48e-5, 1.443},
                    {2.00e-6, 2.019},
                    {1.61e-7, 19.71}}};
}

/// Unnamed rubber of high damping; valid from 3e-3 to 1.8e5 Hz.
inline models::PronySeries material_a() {
  return {.name = "material A",
          .relaxed = 1.067,
          .terms = {{150, 0.5643},
                    {16.1, 0.3937},
                    {1.73, 0.4828},
                    {0.186, 0.5159},
                    {0.0199, 0.8306},
                    {2.14e-3, 1.950},
                    {2.29e-4, 4.936},
                    {2.46e-5, 14.73},
                    {2.64e-6, 41.86},
                    {2.83e-7, 372.3}}};
}

}  // namespace drumlin::tests
